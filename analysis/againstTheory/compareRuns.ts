import { reproducibility } from '../notSlip/reproducibility.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { RunResult } from '../result.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';
import { againstEarlier, type PumpRun, type RunAgainstEarlier } from './againstEarlier.ts';
import { pumpRunOf } from './pumpRunOf.ts';

/** A sealed run with its result. */
export type AnalysedRun = { readonly run: RunRecord; readonly result: RunResult };

/** A delivery run beside the earlier ones of its pump. */
export type RunComparison = {
  /** Newest first. */
  readonly earlier: readonly RunAgainstEarlier[];
  /** What taking the pump off and mounting it again changes, from the runs of this bench and state of the pump. */
  readonly mounting: {
    readonly text: string;
    /** V_i of this run with the scatter between mountings in its budget; null where it is not known. */
    readonly derivedCapacityM3PerRev: Stated | null;
  };
};

type Comparable = { readonly run: RunRecord; readonly pumpRun: PumpRun };

function comparable({ run, result }: AnalysedRun): readonly Comparable[] {
  const pumpRun = pumpRunOf(run, result);
  return pumpRun === null ? [] : [{ run, pumpRun }];
}

function mountingOf(now: Comparable, others: readonly Comparable[]): RunComparison['mounting'] {
  const alike = others.filter(({ run }) => run.bench.id === now.run.bench.id && run.label === now.run.label);
  const found = reproducibility(
    [now, ...alike].map(({ run, pumpRun }) => ({
      mounting: run.mounting,
      value: pumpRun.derivedCapacityM3PerRev,
      sources: pumpRun.sources,
    })),
  );
  if (!found.known) return { text: found.text, derivedCapacityM3PerRev: null };
  const { source } = found.value;
  const { value, sensitivities } = now.pumpRun.derivedCapacityM3PerRev;
  return {
    text: found.text,
    derivedCapacityM3PerRev: stateUncertainty(
      { value, sensitivities: { ...sensitivities, [source.id]: 1 } },
      { ...now.pumpRun.sources, [source.id]: source },
    ),
  };
}

/**
 * A delivery run against the earlier ones of the same pump, and what mounting the pump anew adds to its uncertainty.
 *
 * @param now - this run [-]
 * @param others - earlier delivery runs of the pump, in any order; those without a law are passed over [n runs]
 * @returns the comparisons [m³/rev, m³/s]; null where this run has no law [-]
 *
 * Source: againstEarlier, reproducibility.
 */
export function compareRuns(now: AnalysedRun, others: readonly AnalysedRun[]): RunComparison | null {
  const [present] = comparable(now);
  if (present === undefined) return null;
  const earlier = others.flatMap(comparable).sort((a, b) => b.run.startedAtUtc.localeCompare(a.run.startedAtUtc));
  return {
    earlier: againstEarlier(
      present.pumpRun,
      earlier.map(({ pumpRun }) => pumpRun),
    ),
    mounting: mountingOf(present, earlier),
  };
}
