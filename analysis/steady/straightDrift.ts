import { varianceOfMean } from '../uncertainty/effectiveReadings.ts';

/** A straight line through a channel over a hold. */
export type StraightDrift = {
  /** In SI of the channel, per second. */
  readonly ratePerS: number;
  readonly standardUncertainty: number;
};

/** Fewer points show no drift. */
const LEAST_POINTS = 4;

/**
 * Rate of a channel by a least-squares line, b = Σ (t − t̄)(x − x̄)/Σ (t − t̄)². Residuals that remember one another tell less
 * than as many independent ones: u²(b) = n · var(mean of the residuals) · n/(n − 2) / Σ (t − t̄)², which for independent
 * residuals is the usual s²/Σ (t − t̄)².
 *
 * @param atS - times [n points, s]
 * @param values - the channel at these times [n points, any unit]
 * @returns rate and its standard uncertainty [unit of the channel per s]; null for fewer than four points or no time between
 *
 * Source: least squares; the residuals' memory by their effective number, in the manner of Santer et al., J. Geophys. Res. 105
 * (2000), 7337-7356.
 */
export function straightDrift(atS: Float64Array, values: Float64Array): StraightDrift | null {
  const count = values.length;
  if (count < LEAST_POINTS) return null;
  const meanS = meanAbout(atS, 0);
  const base = values[0] ?? 0;
  const mean = base + meanAbout(values, base);
  let spreadS2 = 0;
  let product = 0;
  for (let index = 0; index < count; index += 1) {
    const fromMeanS = (atS[index] ?? 0) - meanS;
    spreadS2 += fromMeanS ** 2;
    product += fromMeanS * ((values[index] ?? 0) - mean);
  }
  if (spreadS2 === 0) return null;
  const ratePerS = product / spreadS2;
  const residuals = new Float64Array(count);
  for (let index = 0; index < count; index += 1) {
    residuals[index] = (values[index] ?? 0) - mean - ratePerS * ((atS[index] ?? 0) - meanS);
  }
  return {
    ratePerS,
    standardUncertainty: Math.sqrt((varianceOfMean(residuals) * count ** 2) / (count - 2) / spreadS2),
  };
}

function meanAbout(values: Float64Array, base: number): number {
  let sum = 0;
  for (let index = 0; index < values.length; index += 1) sum += (values[index] ?? 0) - base;
  return sum / values.length;
}
