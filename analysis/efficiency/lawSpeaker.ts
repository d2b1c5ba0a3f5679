import type { DrainLaw } from '../delivery/drainLaw.ts';
import { volumetricEfficiency } from '../delivery/volumetricEfficiency.ts';
import { type Outcome, yes } from '../outcome.ts';
import type { OilRecord } from '../records/oilRecord.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { GapMap } from '../slip/gapMap.ts';
import { gapMapOf } from '../slip/gapMapOf.ts';
import { ASSUMED_BULK_MODULUS } from '../steady/massBalance.ts';
import { combine, exactly, type Source, type SourceTable, type Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';
import { type ClearanceChange, type ClearanceRefusal, clearanceChange, runTemperatureOf } from './clearanceChange.ts';
import type { ClearancesAt } from './hottestOil.ts';
import { mergeSources } from './mergeSources.ts';
import { type LawEvidence, type SpokenPoint, spokenFlow } from './spokenLaw.ts';
import { spokenOil } from './spokenOil.ts';

/** What a law says at a point, clearances as hot as there. */
export type Spoken = {
  /** At the outlet port. */
  readonly flowM3PerS: Uncertain;
  /** V_i n − q₁, at the inlet. */
  readonly slipM3PerS: Uncertain;
  /** q/(V_i n) [1]. */
  readonly derivedEfficiency: Uncertain;
  readonly change: ClearanceChange;
  /** Sources of all that. */
  readonly sources: SourceTable;
};

/** A run's law, ready to be asked: at any point, for its own oil or another. */
export type LawSpeaker = {
  readonly evidence: LawEvidence;
  readonly clearancesAt: ClearancesAt;
  readonly at: (point: SpokenPoint) => Outcome<Spoken, ClearanceRefusal>;
  /** Sources of law, oil and a change of clearances. */
  readonly sourcesWith: (change: readonly Source[]) => SourceTable;
  /** States a value that is sensitive to a change of clearances besides. */
  readonly stateWith: (change: readonly Source[]) => (value: Uncertain) => Stated;
};

/** The gap map of a run's strip sheet; null where there is none, or it is not complete. */
export function gapMapOfRun(run: Pick<RunRecord, 'stripSheet' | 'pump'>): GapMap | null {
  if (run.stripSheet === null) return null;
  const map = gapMapOf(run.stripSheet, run.pump.materials);
  return map.ok ? map.value : null;
}

/**
 * A fitted law, ready to be asked for flow, slip and efficiency anywhere: the clearances are carried to the temperature
 * asked for by the run's strip sheet, or by an assumption that widens the interval.
 *
 * @param run - its oil, pump and strip sheet [-]
 * @param law - as fitted, with the range of its holds [-]
 * @param drain - as fitted; null: the bench reads none [-]
 * @param sources - every source that law and drain are sensitive to [-]
 * @param oil - for which the law is spoken; the run's own by default [-]
 * @returns the speaker [-]
 */
export function lawSpeaker(
  run: Pick<RunRecord, 'oil' | 'pump' | 'stripSheet'>,
  law: LawEvidence['law'],
  drain: Pick<DrainLaw, 'drainCoefficientM3'> | null,
  sources: readonly Source[],
  oil: OilRecord = run.oil,
): LawSpeaker {
  const spoken = spokenOil(oil, run.oil);
  const evidence: LawEvidence = {
    law,
    oil: spoken,
    runOil: run.oil,
    outlet: { drain, bulkModulusPa: ASSUMED_BULK_MODULUS },
  };
  const basis = {
    map: gapMapOfRun(run),
    materials: run.pump.materials,
    runTemperatureK: runTemperatureOf(law.range),
  };
  const clearancesAt: ClearancesAt = (temperatureK) => clearanceChange(basis, temperatureK);
  const sourcesWith = (change: readonly Source[]): SourceTable => mergeSources(sources, spoken.sources, change);
  const capacity = law.uncertain.derivedCapacityM3PerRev;
  return {
    evidence,
    clearancesAt,
    sourcesWith,
    stateWith: (change) => {
      const table = sourcesWith(change);
      return (value) => stateUncertainty(value, table);
    },
    at: (point) => {
      const change = clearancesAt(point.oilTemperatureK);
      if (!change.ok) return change;
      const flowM3PerS = spokenFlow(evidence, point, change.value.factor);
      const atInlet = spokenFlow({ ...evidence, outlet: null }, point, change.value.factor);
      return yes({
        flowM3PerS,
        slipM3PerS: combine(capacity.value * point.speedRevPerS - atInlet.value, [
          { input: capacity, derivative: point.speedRevPerS },
          { input: atInlet, derivative: -1 },
        ]),
        derivedEfficiency: volumetricEfficiency(flowM3PerS, capacity, exactly(point.speedRevPerS)),
        change: change.value,
        sources: sourcesWith(change.value.sources),
      });
    },
  };
}
