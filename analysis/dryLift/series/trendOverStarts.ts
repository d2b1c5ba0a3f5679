import { linearRegression, mean } from 'simple-statistics';
import type { SeriesTrend } from '../../resultSchema/drySeriesSchema.ts';
import { coverageFactor, studentTCdf } from '../../uncertainty/studentT.ts';

/** Two numbers make the line; two more tell how far starts lie from it. */
const LEAST_STARTS = 4;
/** What chance makes more often is no sign [1]. */
const RARE = 0.05;

/**
 * Trend of priming times over the starts of a series: slope of ln t over the start's number, by Student's t.
 *
 * @param timesS - priming times in the order of the starts, each above zero [n, s]
 * @returns the trend; from four starts on [-]
 *
 * Source: t test of a regression slope, e.g. Draper and Smith, Applied Regression Analysis (1998), 1.5; ln since times scatter in
 * proportion.
 */
export function trendOverStarts(timesS: readonly number[]): SeriesTrend {
  const count = timesS.length;
  if (count < LEAST_STARTS) return { verdict: 'too few', needed: LEAST_STARTS };
  const points = timesS.map((timeS, index) => [index, Math.log(timeS)]);
  const { m, b } = linearRegression(points);
  const freedom = count - 2;
  const residual = points.reduce((sum, [x = 0, y = 0]) => sum + (y - b - m * x) ** 2, 0) / freedom;
  const middle = mean(points.map(([x = 0]) => x));
  const deviation = Math.sqrt(residual / points.reduce((sum, [x = 0]) => sum + (x - middle) ** 2, 0));
  const byChance = deviation === 0 ? (m === 0 ? 1 : 0) : 2 * studentTCdf(-Math.abs(m) / deviation, freedom);
  const half = coverageFactor(freedom) * deviation;
  const changePerStart = { value: Math.expm1(m), lower: Math.expm1(m - half), upper: Math.expm1(m + half) };
  const isSign = byChance < RARE;
  return { verdict: !isSign ? 'no sign' : m < 0 ? 'faster' : 'slower', changePerStart, byChance };
}
