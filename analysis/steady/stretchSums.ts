import { QUALITY } from '../readings.ts';

/** The shift of a stretch is the mean of so many readings: near its own mean, so that few good ones look far off. */
const SHIFT_READINGS = 16;

/** Sums over the good values of a stretch, told about `shift` so that no digits are lost. */
export type StretchSums = {
  readonly shift: number;
  count: number;
  sum: number;
  sumOfSquares: number;
  sumOfDistances: number;
  /** Largest square of a distance from the shift. */
  farthestSquare: number;
};

/** Sums of nothing yet, their shift taken from the first good values of a stretch; without one it is 0. */
export function emptySums(values: Float64Array, quality: Uint8Array, first: number, end: number): StretchSums {
  let count = 0;
  let base = 0;
  let sum = 0;
  for (let index = first; index < end && count < SHIFT_READINGS; index += 1) {
    if (quality[index] !== QUALITY.good) continue;
    if (count === 0) base = values[index] ?? 0;
    count += 1;
    sum += (values[index] ?? 0) - base;
  }
  return {
    shift: count === 0 ? 0 : base + sum / count,
    count: 0,
    sum: 0,
    sumOfSquares: 0,
    sumOfDistances: 0,
    farthestSquare: 0,
  };
}

/**
 * Adds the good values of a stretch to sums. Millions of readings pass here: two at a time, so that one addition need not
 * wait for the other, and qualities are looked at one by one only where one of them is not good.
 */
export function addStretch(
  sums: StretchSums,
  values: Float64Array,
  quality: Uint8Array,
  first: number,
  end: number,
): void {
  const { shift } = sums;
  let sumA = 0;
  let sumB = 0;
  let squaresA = 0;
  let squaresB = 0;
  let distancesA = 0;
  let distancesB = 0;
  let { farthestSquare } = sums;
  let worstQuality: number = QUALITY.good;
  let index = first;
  for (; index < end - 1; index += 2) {
    worstQuality |= (quality[index] ?? 0) | (quality[index + 1] ?? 0);
    const a = (values[index] ?? 0) - shift;
    const b = (values[index + 1] ?? 0) - shift;
    const squareA = a * a;
    const squareB = b * b;
    sumA += a;
    sumB += b;
    squaresA += squareA;
    squaresB += squareB;
    distancesA += Math.abs(a);
    distancesB += Math.abs(b);
    if (squareA > farthestSquare) farthestSquare = squareA;
    if (squareB > farthestSquare) farthestSquare = squareB;
  }
  if (index < end) {
    worstQuality |= quality[index] ?? 0;
    const a = (values[index] ?? 0) - shift;
    sumA += a;
    squaresA += a * a;
    distancesA += Math.abs(a);
    if (a * a > farthestSquare) farthestSquare = a * a;
  }
  if (worstQuality !== QUALITY.good) {
    addGoodOnes(sums, values, quality, first, end);
    return;
  }
  sums.count += end - first;
  sums.sum += sumA + sumB;
  sums.sumOfSquares += squaresA + squaresB;
  sums.sumOfDistances += distancesA + distancesB;
  sums.farthestSquare = farthestSquare;
}

function addGoodOnes(sums: StretchSums, values: Float64Array, quality: Uint8Array, first: number, end: number): void {
  for (let index = first; index < end; index += 1) {
    if (quality[index] !== QUALITY.good) continue;
    const deviation = (values[index] ?? 0) - sums.shift;
    sums.count += 1;
    sums.sum += deviation;
    sums.sumOfSquares += deviation * deviation;
    sums.sumOfDistances += Math.abs(deviation);
    if (deviation * deviation > sums.farthestSquare) sums.farthestSquare = deviation * deviation;
  }
}

/** Sums over the good values of a stretch. */
export function stretchSums(values: Float64Array, quality: Uint8Array, first: number, end: number): StretchSums {
  const sums = emptySums(values, quality, first, end);
  addStretch(sums, values, quality, first, end);
  return sums;
}
