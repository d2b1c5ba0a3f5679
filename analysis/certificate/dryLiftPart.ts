import { formatStated, printRpm } from '../formatStated.ts';
import type { DryLiftResult, Priming } from '../result.ts';
import { unitOf } from '../units.ts';
import type { CertificateDryLift } from './certificateData.ts';
import { statedOnly, statedOrNull } from './certificateStated.ts';
import type { CertifiedRun } from './certifiedRun.ts';

function inWords(dryLift: DryLiftResult, priming: Priming): string {
  const start = `${dryLift.staticLiftM.toFixed(3)} m at ${printRpm(dryLift.speedRevPerS)} r/min, wetness class ${dryLift.wetness}`;
  if (!priming.primed) {
    return `Dry lift not proven at ${start}: no oil had arrived ${priming.watchedForS.toFixed(1)} s after motor start.`;
  }
  const { value, expandedUncertainty } = formatStated(priming.primingTimeS, unitOf('s'));
  return `Dry lift proven at ${start}: oil arrived and stayed after ${value} s (U = ${expandedUncertainty} s). One start of one; another lift, speed or wetness is not proven by it.`;
}

function partOf(runId: string, dryLift: DryLiftResult): CertificateDryLift[] {
  // A run whose start could not be read carries the finding 'unfit' and was refused before.
  if (!dryLift.priming.ok) return [];
  const priming = dryLift.priming.value;
  const { speedRevPerS, staticLiftM, wetness, barometerPa, oilDensityKgPerM3, columnPressurePa } = dryLift;
  return [
    {
      runId,
      inWords: inWords(dryLift, priming),
      hasPrimed: priming.primed,
      primingTimeS: priming.primed ? statedOnly(priming.primingTimeS) : null,
      motorStartS: priming.motorStartS,
      oilAtInletS: priming.primed ? priming.oilAtInletS : null,
      watchedForS: priming.primed ? null : priming.watchedForS,
      speedRevPerS,
      staticLiftM,
      wetness,
      barometerPa,
      oilDensityKgPerM3,
      columnPressurePa,
      lowestSuctionPressurePa: statedOrNull(dryLift.lowestSuctionPressurePa),
    },
  ];
}

/** What every dry start proved, or did not. */
export function dryLiftParts(runs: readonly CertifiedRun[]): CertificateDryLift[] {
  return runs.flatMap(({ run, result }) => (result.dryLift === null ? [] : partOf(run.id, result.dryLift)));
}
