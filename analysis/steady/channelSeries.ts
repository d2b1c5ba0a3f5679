import type { Column } from '../readings.ts';
import { MOST_GROUPS } from '../uncertainty/effectiveReadings.ts';
import { addStretch, emptySums, type StretchSums } from './stretchSums.ts';
import { EVERYTHING, qualityWithin, reachOf } from './wildReadings.ts';

/** A channel over a hold: its readings, and from some two thousand up the means of equal groups of them. */
export type ChannelSeries = {
  /** Good readings that were averaged. */
  readonly count: number;
  /** Good readings that were left out as wild. */
  readonly wildCount: number;
  readonly mean: number;
  /** Σ (x − x̄)²/n over the readings. */
  readonly variance: number;
  /** Means of the groups, oldest first; a group without a good reading is left out. */
  readonly groups: Float64Array;
  /** Middle of each group [s]. */
  readonly groupAtS: Float64Array;
};

type Groups = { readonly sums: StretchSums; readonly means: Float64Array; readonly atS: Float64Array };

/** Cuts the good readings into groups: their means, and the sums of the whole. */
function groupsOf(column: Column, elapsedS: Float64Array, first: number, end: number): Groups {
  const { values, quality } = column;
  const size = Math.max(1, Math.ceil((end - first) / MOST_GROUPS));
  const means = new Float64Array(Math.ceil((end - first) / size));
  const atS = new Float64Array(means.length);
  const sums = emptySums(values, quality, first, end);
  let groupCount = 0;
  for (let from = first; from < end; from += size) {
    const to = Math.min(end, from + size);
    const { count, sum } = sums;
    addStretch(sums, values, quality, from, to);
    if (sums.count === count) continue;
    means[groupCount] = sums.shift + (sums.sum - sum) / (sums.count - count);
    atS[groupCount] = ((elapsedS[from] ?? Number.NaN) + (elapsedS[to - 1] ?? Number.NaN)) / 2;
    groupCount += 1;
  }
  return { sums, means: means.subarray(0, groupCount), atS: atS.subarray(0, groupCount) };
}

/**
 * A channel's good readings over a hold, averaged in at most 2048 equal groups, without wild ones (reachOf).
 *
 * @param column - values with their quality [n readings, oldest first]
 * @param elapsedS - their times [s]
 * @param first - first reading of the hold [-]
 * @param end - one behind its last [-]
 * @param limitAt - stillness limit at a value; 0 for a channel that has none [unit of the column]
 * @returns the series; null where less than half of the hold is good [unit of the column]
 */
export function channelSeries(
  column: Column,
  elapsedS: Float64Array,
  first: number,
  end: number,
  limitAt: (value: number) => number,
): ChannelSeries | null {
  const { values, quality } = column;
  const all = groupsOf(column, elapsedS, first, end);
  if (all.sums.count === 0 || 2 * all.sums.count < end - first) return null;
  const reach = reachOf(values, quality, first, end, all.sums, limitAt);
  const kept =
    reach === EVERYTHING
      ? all
      : groupsOf(
          { values: values.subarray(first, end), quality: qualityWithin(values, quality, first, end, reach) },
          elapsedS.subarray(first, end),
          0,
          end - first,
        );
  const { shift, count, sum, sumOfSquares } = kept.sums;
  return {
    count,
    wildCount: all.sums.count - count,
    mean: shift + sum / count,
    variance: Math.max(0, (sumOfSquares - sum ** 2 / count) / count),
    groups: kept.means,
    groupAtS: kept.atS,
  };
}
