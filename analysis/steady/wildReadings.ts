import { QUALITY } from '../readings.ts';
import { type StretchSums, stretchSums } from './stretchSums.ts';

/** At most so much of a stretch may be wild [1]: more is not a wild reading but how the channel behaves. */
const MOST_WILD_SHARE = 1 / 8;

/** Fewer readings than this cannot say which of them is the wild one. */
const LEAST_READINGS = 5;

/** From so many readings on the standard deviation shows whether any is wild, and sorting is spared. */
const ENOUGH_FOR_DEVIATION = 32;

/**
 * Standard deviation over mean distance [1]: √(π/2) = 1.25 for normal readings, less for a sine, near 1/√p where a share p of the
 * readings is far off. One in eight to one in 25 is too many to stand out from the standard deviation and shows here.
 */
const MOST_DEVIATION_OVER_DISTANCE = 1.5;

/** Median and scatter are taken from so many readings at the most: sorting millions would say nothing more. */
const MOST_SORTED = 1023;

/** Standard deviation of a normal distribution over its median absolute deviation [1]. */
const SIGMA_PER_MAD = 1.4826;

/** What lies outside centre ± reach is wild. */
export type Reach = { readonly centre: number; readonly half: number };

export const EVERYTHING: Reach = { centre: 0, half: Number.POSITIVE_INFINITY };

/**
 * How many standard deviations a good reading may lie off: K = √(2 ln(1000 n)) (1 + 8/n). Of n normal readings one lies
 * beyond √(2 ln(1000 n)) with a probability below n exp(−K²/2) = 1/1000; the second factor gives room for a median
 * absolute deviation that rests on few readings.
 */
function reachInSigmas(count: number): number {
  return Math.sqrt(2 * Math.log(1000 * count)) * (1 + 8 / count);
}

function median(sorted: Float64Array): number {
  const middle = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(middle)] ?? Number.NaN) + (sorted[Math.ceil(middle)] ?? Number.NaN)) / 2;
}

/** Whether the sums alone show that no reading can be wild: the common case, and no reading need be looked at twice. */
function isPlainlyTame(sums: StretchSums, limitAt: (value: number) => number): boolean {
  const { count, shift, sum, sumOfSquares } = sums;
  if (count < LEAST_READINGS) return true;
  const farthest = Math.sqrt(sums.farthestSquare);
  if (2 * farthest <= limitAt(shift + sum / count)) return true;
  if (count < ENOUGH_FOR_DEVIATION) return false;
  const deviation = Math.sqrt((sumOfSquares - sum ** 2 / count) / (count - 1));
  if (count * deviation > MOST_DEVIATION_OVER_DISTANCE * sums.sumOfDistances) return false;
  return farthest + Math.abs(sum / count) <= reachInSigmas(count) * deviation;
}

/**
 * The reach of a stretch that stands still: a reading farther from the median than K times the scatter (by the median
 * absolute deviation) and than the channel's stillness limit is wild and takes no part in a mean.
 *
 * A reading within the stillness limit is never wild, so a coarse channel whose scatter rounds to nothing loses at most
 * one reading in eight by one step: a bias below 1/8 of the step, within the step/√12 that is counted for rounding.
 * Healthy normal readings lose one in about a thousand stretches, on either side alike: the mean keeps its expectation, and
 * its scatter is that of the readings that were kept. One among fewer than five cannot be told: it makes the stretch restless
 * rather than move a mean unseen.
 *
 * @param values - the column [n readings, oldest first]
 * @param quality - beside it; 0 is good [n readings]
 * @param first - first reading of the stretch [-]
 * @param end - one behind its last [-]
 * @param sums - sums over its good values [-]
 * @param limitAt - stillness limit at a value [unit of the column]
 * @returns centre and half width; everything where no reading is wild, or too many would be [unit of the column]
 *
 * Source: rejection by the median absolute deviation (Hampel, JASA 69 (1974), 383-393); K derived here.
 */
export function reachOf(
  values: Float64Array,
  quality: Uint8Array,
  first: number,
  end: number,
  sums: StretchSums,
  limitAt: (value: number) => number,
): Reach {
  if (isPlainlyTame(sums, limitAt)) return EVERYTHING;
  const sample = goodSample(values, quality, first, end).sort();
  const centre = median(sample);
  const scatter = SIGMA_PER_MAD * median(sample.map((value) => Math.abs(value - centre)).sort());
  const half = Math.max(reachInSigmas(sums.count) * scatter, limitAt(centre));
  const reach = { centre, half };
  const wildCount = sums.count - sumsWithin(values, quality, first, end, reach).count;
  return wildCount > 0 && wildCount <= MOST_WILD_SHARE * sums.count ? reach : EVERYTHING;
}

/** Good values, evenly taken where there are many. */
function goodSample(values: Float64Array, quality: Uint8Array, first: number, end: number): Float64Array {
  const stride = Math.max(1, Math.ceil((end - first) / MOST_SORTED));
  const sample = new Float64Array(Math.ceil((end - first) / stride));
  let count = 0;
  for (let index = first; index < end; index += stride) {
    if (quality[index] !== QUALITY.good) continue;
    sample[count] = values[index] ?? 0;
    count += 1;
  }
  return sample.subarray(0, count);
}

/** The quality of a stretch with its wild readings marked as missing [n readings of the stretch]. */
export function qualityWithin(
  values: Float64Array,
  quality: Uint8Array,
  first: number,
  end: number,
  { centre, half }: Reach,
): Uint8Array {
  const within = quality.slice(first, end);
  for (let index = first; index < end; index += 1) {
    if (Math.abs((values[index] ?? centre) - centre) > half) within[index - first] = QUALITY.missing;
  }
  return within;
}

function sumsWithin(values: Float64Array, quality: Uint8Array, first: number, end: number, reach: Reach): StretchSums {
  const within = qualityWithin(values, quality, first, end, reach);
  return stretchSums(values.subarray(first, end), within, 0, within.length);
}

/**
 * Mean of a stretch without its wild readings.
 *
 * @param column - values with their quality [n readings, oldest first]
 * @param first - first reading of the stretch [-]
 * @param end - one behind its last [-]
 * @param limitAt - stillness limit at a value [unit of the column]
 * @returns mean; NaN where less than half of the stretch is good [unit of the column]
 */
export function steadyMean(
  column: { readonly values: Float64Array; readonly quality: Uint8Array },
  first: number,
  end: number,
  limitAt: (value: number) => number,
): number {
  const { values, quality } = column;
  const all = stretchSums(values, quality, first, end);
  if (all.count === 0 || 2 * all.count < end - first) return Number.NaN;
  const reach = reachOf(values, quality, first, end, all, limitAt);
  const kept = reach === EVERYTHING ? all : sumsWithin(values, quality, first, end, reach);
  return kept.shift + kept.sum / kept.count;
}
