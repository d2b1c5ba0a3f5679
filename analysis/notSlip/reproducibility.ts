import { mean, sum } from 'simple-statistics';
import { printFixed } from '../formatStated.ts';
import type { Source, SourceTable, Uncertain } from '../uncertainty/source.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';

/** One run's value of what is to be reproduced: derived capacity, flow at the duty. */
export type MountedValue = {
  /** Which mounting of the pump on the bench it belongs to. */
  readonly mounting: number;
  readonly value: Uncertain;
  /** Sources of that run; ids of different runs may coincide. */
  readonly sources: SourceTable;
};

type Reproducibility = {
  readonly mountingCount: number;
  readonly runCount: number;
  /** s_L: between mountings, beyond what runs scatter within one [unit of the value]. */
  readonly betweenMountings: number;
  /** s_r: between runs of one mounting [unit of the value]. */
  readonly withinMounting: number;
  /** From runs repeated within a mounting, or from what each run states of its own scatter. */
  readonly withinFrom: 'repeated runs' | 'stated scatter';
  /** Of one mounting: add it with sensitivity 1 to the value of a single run. */
  readonly source: Source;
};

export type ReproducibilityRead =
  | { readonly known: true; readonly value: Reproducibility; readonly text: string }
  | { readonly known: false; readonly code: 'ONE_MOUNTING'; readonly text: string };

/** The random part of a value's variance: calibration is the same in all runs of a bench and shows in no difference. */
function randomVariance({ value, sources }: MountedValue): number {
  const random = Object.entries(value.sensitivities).filter(([id]) => sources[id]?.kind === 'random');
  const uncertain = { value: value.value, sensitivities: Object.fromEntries(random) };
  return stateUncertainty(uncertain, sources).standardUncertainty ** 2;
}

/**
 * What a pump loses in agreement when it is taken off the bench and mounted again: the variance between mountings beyond
 * that within, by analysis of variance in one way. With mountings i of k_i runs, N runs and m mountings:
 * s_d² = Σ k_i (ȳ_i − ȳ)² / (m − 1), k̄ = (N − Σ k_i²/N) / (m − 1), s_L² = (s_d² − s_r²) / k̄, zero where that is negative.
 * s_r² is pooled from repeated runs where a mounting has more than one, else the mean of the variances that the runs state
 * of their own scatter.
 *
 * @param runs - of one pump on one bench with one set of calibrations [n runs, any unit]
 * @returns the components and a source with m − 1 degrees of freedom, or that one mounting tells nothing [unit of the value]
 * @throws RangeError without a run
 *
 * Source: ISO 5725-2:2019, 7.4 (repeatability and between-laboratory variance), a mounting in the place of a laboratory;
 * JCGM 100:2008, H.5 (analysis of variance). Clauses from memory.
 */
export function reproducibility(runs: readonly MountedValue[]): ReproducibilityRead {
  if (runs.length === 0) throw new RangeError('runs: none given');
  const mountings = [...new Set(runs.map(({ mounting }) => mounting))];
  const mountingCount = mountings.length;
  if (mountingCount < 2) {
    return {
      known: false,
      code: 'ONE_MOUNTING',
      text: 'What taking the pump off and mounting it again would change is not known: all runs are of one mounting. Take it off, mount it again and repeat the run.',
    };
  }
  const groups = mountings.map((mounting) => runs.filter((run) => run.mounting === mounting));
  const runCount = runs.length;
  const grandMean = mean(runs.map(({ value }) => value.value));
  const groupMean = (group: readonly MountedValue[]): number => mean(group.map(({ value }) => value.value));
  const isRepeated = runCount > mountingCount;
  const withinSquares = sum(
    groups.map((group) => sum(group.map(({ value }) => (value.value - groupMean(group)) ** 2))),
  );
  const withinVariance = isRepeated ? withinSquares / (runCount - mountingCount) : mean(runs.map(randomVariance));
  const meanSquare =
    sum(groups.map((group) => group.length * (groupMean(group) - grandMean) ** 2)) / (mountingCount - 1);
  const runsPerMounting = (runCount - sum(groups.map(({ length }) => length ** 2)) / runCount) / (mountingCount - 1);
  const betweenMountings = Math.sqrt(Math.max(0, (meanSquare - withinVariance) / runsPerMounting));
  const source: Source = {
    id: 'run.mounting',
    label: 'pump taken off and mounted again',
    kind: 'random',
    standardUncertainty: betweenMountings,
    degreesOfFreedom: mountingCount - 1,
    shape: 'normal',
    pooledAs: null,
  };
  const percent = printFixed((100 * betweenMountings) / Math.abs(grandMean), 3);
  return {
    known: true,
    value: {
      mountingCount,
      runCount,
      betweenMountings,
      withinMounting: Math.sqrt(withinVariance),
      withinFrom: isRepeated ? 'repeated runs' : 'stated scatter',
      source,
    },
    text:
      betweenMountings > 0
        ? `Over ${mountingCount} mountings the value scatters by ${percent} % (standard deviation) beyond what runs scatter within one; ${mountingCount - 1} degrees of freedom.`
        : `Over ${mountingCount} mountings the value scatters no more than runs do within one.`,
  };
}
