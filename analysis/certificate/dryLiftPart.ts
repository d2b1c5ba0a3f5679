import { diagnosisWords } from '../dryLift/diagnosisWords.ts';
import { limitWords, machineWords, untoldWords } from '../dryLift/dryLiftWords.ts';
import { eventLines, seenAtS } from '../dryLift/eventWords.ts';
import { riserWords } from '../dryLift/riser/riserWords.ts';
import { drySeries } from '../dryLift/series/drySeries.ts';
import { seriesWords } from '../dryLift/series/seriesWords.ts';
import { togetherWords } from '../dryLift/series/togetherWords.ts';
import { formatStated, printRpm } from '../formatStated.ts';
import type { DryLiftResult, Priming } from '../result.ts';
import type { DryLiftEstimateResult } from '../resultSchema/dryLiftSchema.ts';
import type { DryTogether } from '../resultSchema/dryTogetherSchema.ts';
import { unitOf } from '../units.ts';
import { statedOnly, statedOrNull } from './certificateStated.ts';
import type { CertifiedRun } from './certifiedRun.ts';
import type { CertificateDryLift, CertificateDrySeries, CertificateDryTogether } from './dryLiftSchema.ts';

function inWords(dryLift: DryLiftResult, priming: Priming): string {
  const start = `${dryLift.staticLiftM.toFixed(3)} m at ${printRpm(dryLift.speedRevPerS)} r/min, wetness class ${dryLift.wetness}`;
  if (!priming.primed) {
    return `Dry lift not proven at ${start}: no oil had arrived ${priming.watchedForS.toFixed(1)} s after motor start.`;
  }
  const { value, expandedUncertainty } = formatStated(priming.primingTimeS, unitOf('s'));
  return `Dry lift proven at ${start}: oil arrived and stayed after ${value} s (U = ${expandedUncertainty} s). One start of one; another lift, speed or wetness is not proven by it.`;
}

/** The start to which the first of the limits belongs. */
function fastestOf(starts: DryLiftEstimateResult['starts']): DryLiftEstimateResult['starts'][number] | undefined {
  return [...starts].sort((a, b) => b.speedRevPerS - a.speedRevPerS)[0];
}

function estimateOf({ estimate, wetness }: DryLiftResult): CertificateDryLift['estimate'] {
  if (!estimate.ok) return null;
  const { capacityBasis, gapConstantM3PerSPerPa, deadVolumeM3, carryOverShare, gapChange } = estimate.value;
  const { limits, search, starts } = estimate.value;
  const first = fastestOf(starts);
  if (first === undefined) return null;
  const { readingCount, iterations, startCount, noiseFactor } = search;
  const { elapsedS, suctionPressurePa, columnHeightM } = first.course;
  const sentences = [...limitWords(estimate.value, wetness), untoldWords(estimate.value), machineWords(estimate.value)];
  return {
    inWords: sentences.filter((sentence) => sentence !== null),
    capacityBasis,
    gapConstantM3PerSPerPa,
    deadVolumeM3,
    carryOverShare,
    gapChange: gapChange.verdict,
    limits: limits.map(({ speedRevPerS, limitM, blankOffPressurePa }) => ({
      speedRevPerS,
      limitM,
      blankOffPressurePa,
    })),
    search: { readingCount, iterations, startCount, noiseFactor },
    course: {
      elapsedS: [...elapsedS],
      suctionPressurePa: [...suctionPressurePa],
      columnHeightM: columnHeightM === null ? null : [...columnHeightM],
    },
  };
}

function commonOf(runId: string, dryLift: DryLiftResult) {
  const { speedRevPerS, staticLiftM, wetness, barometerPa, oilDensityKgPerM3, columnPressurePa } = dryLift;
  return {
    runId,
    diagnosisInWords: [...diagnosisWords(dryLift.diagnosis)],
    estimate: estimateOf(dryLift),
    events: eventLines(dryLift.events).flatMap(({ name, event }) =>
      event.seen ? [{ event: name, atS: statedOnly(event.atS), from: event.from }] : [],
    ),
    speedRevPerS,
    staticLiftM,
    wetness,
    barometerPa,
    oilDensityKgPerM3,
    columnPressurePa,
    lowestSuctionPressurePa: statedOrNull(dryLift.lowestSuctionPressurePa),
  };
}

/** A blanked run of which nothing is estimated says nothing; its findings say why. */
function blankedPart(runId: string, dryLift: DryLiftResult): CertificateDryLift[] {
  const start = dryLift.estimate.ok ? fastestOf(dryLift.estimate.value.starts) : undefined;
  if (start === undefined) return [];
  return [
    {
      ...commonOf(runId, dryLift),
      kind: 'blanked',
      inWords: `Started against a shut suction at ${printRpm(dryLift.speedRevPerS)} r/min, wetness class ${dryLift.wetness}: no oil was to come, and no lift is proven by it.`,
      hasPrimed: false,
      primingTimeS: null,
      motorStartS: start.motorStartS,
      oilAtInletS: null,
      watchedForS: null,
    },
  ];
}

function liftPart(runId: string, dryLift: DryLiftResult): CertificateDryLift[] {
  // A run whose start could not be read carries the finding 'unfit' and was refused before.
  if (!dryLift.priming.ok) return [];
  const priming = dryLift.priming.value;
  return [
    {
      ...commonOf(runId, dryLift),
      kind: 'lift',
      inWords: [inWords(dryLift, priming), ...riserWords(dryLift)].join(' '),
      hasPrimed: priming.primed,
      primingTimeS: priming.primed ? statedOnly(priming.primingTimeS) : null,
      motorStartS: priming.motorStartS,
      oilAtInletS: seenAtS(dryLift.events, 'oilAtInlet'),
      watchedForS: priming.primed ? null : priming.watchedForS,
    },
  ];
}

/** What every dry start proved, or did not; estimated apart. */
export function dryLiftParts(runs: readonly CertifiedRun[]): CertificateDryLift[] {
  return runs.flatMap(({ run, result }) => {
    if (result.dryLift === null) return [];
    return run.kind === 'blanked' ? blankedPart(run.id, result.dryLift) : liftPart(run.id, result.dryLift);
  });
}

/** The dry starts of these runs as series of starts prepared alike; a single start is a series of one. */
export function drySeriesParts(runs: readonly CertifiedRun[]): CertificateDrySeries[] {
  return drySeries(runs).map((series) => ({
    ...series,
    inWords: [...seriesWords(series), ...series.warnings.map(({ text }) => text)],
    warnings: [...series.warnings],
    starts: series.starts.map(({ runId, primingTimeS, watchedForS, whyNotCounted }) => ({
      runId,
      primingTimeS: statedOrNull(primingTimeS),
      watchedForS,
      whyNotCounted,
    })),
  }));
}

/** Lifts and blanked starts of these runs, fitted together. */
export function dryTogetherParts(together: readonly DryTogether[]): CertificateDryTogether[] {
  return together.map((fitted) => {
    const machine = machineWords(fitted);
    return { ...fitted, inWords: [...togetherWords(fitted), ...(machine === null ? [] : [machine])] };
  });
}
