import { fUpperTail } from '../../delivery/fDistribution.ts';
import type { GapChangeVerdict } from './dryPumpFit.ts';
import { type FitProblem, GAP_CHANGE_RATIO, LOG_LEAK } from './fitSpace.ts';
import { fittedCount, fitUnknowns, type SearchedFit } from './fitUnknowns.ts';
import { PUMP_RANGES } from './pumpRanges.ts';

/** A change that chance makes more often than this is none [1]. */
const RARE = 0.01;
/** A model must be better by this in AICc to be taken for the other one: common practice, no source [1]. */
const CLEARLY_BETTER = 6;
/** A gap that ends within this share of its start counts as constant, as logarithm [1]. */
const CONSTANT_WITHIN = 0.2;
/** Scatter about the constant gap, over the noise, from which the search begins afresh as well [1]. */
const FAR_FROM_READINGS = 1.2;
/** Change of the gap that it then begins with, in deviations of its range: a factor of two and a half [1]. */
const START_RATIO = 1.3;
/** Leak-back that it then begins with, as logarithm over the middle of its range [1]. */
const START_LEAK = 2;

/** −2 ln L of readings whose noise was widened by a factor, up to a constant. */
function deviance({ sumOfSquares, readingCount, noiseFactor }: SearchedFit): number {
  return sumOfSquares + 2 * readingCount * Math.log(noiseFactor);
}

function correctedAic(fit: SearchedFit, count: number): number {
  return deviance(fit) + 2 * count + (2 * count * (count + 1)) / Math.max(1, fit.readingCount - count - 1);
}

/**
 * Where the search with a changing gap begins: at the constant one's end; where that lies far from the readings, which drew
 * everything else aside, also afresh, with gaps that dry and that wet.
 */
function startsOf({ space, parameters, noiseFactor }: SearchedFit): readonly (readonly number[] | null)[] {
  const widened = (from: readonly number[], ratio: number): readonly number[] => [
    ...from.slice(0, GAP_CHANGE_RATIO),
    ratio,
    0,
    ...from.slice(GAP_CHANGE_RATIO),
  ];
  const onward = widened(parameters, 0);
  if (noiseFactor < FAR_FROM_READINGS) return [onward];
  const afresh = space.unknowns.map(({ expected }, index) => (index === LOG_LEAK ? expected + START_LEAK : expected));
  return [onward, null, widened(afresh, -START_RATIO), widened(afresh, START_RATIO)];
}

/** The converged fit nearest to the readings; null: none converged. */
function bestOf(fits: readonly (SearchedFit | null)[]): SearchedFit | null {
  let best: SearchedFit | null = null;
  for (const fit of fits) {
    if (fit?.hasConverged === true && (best === null || deviance(fit) < deviance(best))) best = fit;
  }
  return best;
}

/**
 * Whether the gap constant changed during the start, by AICc and an F test of two more parameters.
 *
 * @param problem - as it was fitted with a constant gap [-]
 * @param constant - that fit [-]
 * @returns verdict, and the fit that goes with it [-]
 *
 * Source: Burnham and Anderson (2002), Model Selection and Multimodel Inference, 2.4 (AICc).
 */
export function testGapChange(
  problem: FitProblem,
  constant: SearchedFit,
): { readonly verdict: GapChangeVerdict; readonly problem: FitProblem; readonly fit: SearchedFit } {
  const wider: FitProblem = { ...problem, mayGapChange: true };
  const changing = bestOf(startsOf(constant).map((start) => fitUnknowns(wider, start, 'rough')));
  if (changing === null) return { verdict: 'undecided', problem, fit: constant };
  const gain = Math.max(0, deviance(constant) - deviance(changing));
  const better =
    correctedAic(constant, fittedCount(problem)) - correctedAic(changing, fittedCount(wider)) > CLEARLY_BETTER;
  const isRare = fUpperTail(gain / 2, 2, constant.readingCount - fittedCount(wider)) < RARE;
  if (better && isRare) {
    const fit = fitUnknowns(wider, changing.parameters);
    return { verdict: 'changes', problem: wider, fit: fit?.hasConverged === true ? fit : changing };
  }
  const { logStandardDeviation } = PUMP_RANGES.gapChangeRatio;
  const ratio = logStandardDeviation * (changing.parameters[GAP_CHANGE_RATIO] ?? Number.NaN);
  const deviation = logStandardDeviation * Math.sqrt(changing.covariance[GAP_CHANGE_RATIO]?.[GAP_CHANGE_RATIO] ?? 1);
  const isConstant = Math.abs(ratio) + 2 * deviation < CONSTANT_WITHIN;
  return { verdict: isConstant ? 'constant' : 'undecided', problem, fit: constant };
}
