import { fUpperTail } from '../../delivery/fDistribution.ts';
import type { GapChangeVerdict } from './dryPumpFit.ts';
import { type FitProblem, GAP_CHANGE_RATIO, LOG_LEAK } from './fitSpace.ts';
import { fittedCount, fitUnknowns, roughFit, type SearchedFit } from './fitUnknowns.ts';
import { PUMP_RANGES } from './pumpRanges.ts';

/** A change that chance makes more often than this is none [1]. */
const RARE = 0.01;
/** A model must be better by this in AICc to be taken for the other one: common practice, no source [1]. */
const CLEARLY_BETTER = 6;
/** A gap that ends within this share of its start counts as constant, as logarithm [1]. */
const CONSTANT_WITHIN = 0.2;
/** Scatter about the constant gap, over the noise, from which the search begins afresh as well [1]. */
const FAR_FROM_READINGS = 1.2;
/** From here on the constant gap drew everything else aside, and the search begins afresh first [1]. */
const DRAWN_ASIDE = 3;
/** Change of the gap that it then begins with, in deviations of its range: a factor of two and a half [1]. */
const START_RATIO = 1.3;

/** −2 ln L of readings whose noise was widened by a factor, up to a constant. */
function deviance({ sumOfSquares, readingCount, noiseFactor }: SearchedFit): number {
  return sumOfSquares + 2 * readingCount * Math.log(noiseFactor);
}

function correctedAic(fit: SearchedFit, count: number): number {
  return deviance(fit) + 2 * count + (2 * count * (count + 1)) / Math.max(1, fit.readingCount - count - 1);
}

/**
 * Where the search with a changing gap begins: at the constant one's end; where that lies far from the readings, also at its
 * leak-back alone, with gaps that wet and that dry.
 */
function startsOf({ space, parameters, noiseFactor }: SearchedFit): readonly (readonly number[])[] {
  const widened = (from: readonly number[], ratio: number): readonly number[] => [
    ...from.slice(0, GAP_CHANGE_RATIO),
    ratio,
    0,
    ...from.slice(GAP_CHANGE_RATIO),
  ];
  const onward = widened(parameters, 0);
  if (noiseFactor < FAR_FROM_READINGS) return [onward];
  const afresh = space.unknowns.map(({ expected }, index) =>
    index === LOG_LEAK ? (parameters[LOG_LEAK] ?? expected) : expected,
  );
  const others = [widened(afresh, START_RATIO), widened(afresh, -START_RATIO)];
  return noiseFactor < DRAWN_ASIDE ? [onward, ...others] : [...others, onward];
}

/** The rough fit with a gap that may change, from the first start that comes near to the readings; null: none can be told. */
function roughlyChanging(problem: FitProblem, constant: SearchedFit): SearchedFit | null {
  let best: SearchedFit | null = null;
  for (const start of startsOf(constant)) {
    const fit = roughFit(problem, start);
    if (fit !== null && (best === null || deviance(fit) < deviance(best))) best = fit;
    if (best !== null && best.noiseFactor < FAR_FROM_READINGS) break;
  }
  return best;
}

type TestedGap = { readonly verdict: GapChangeVerdict; readonly problem: FitProblem; readonly fit: SearchedFit };

/**
 * The unknowns of a fit, and whether the gap constant changed during the start, by AICc and an F test of two more parameters.
 * Where it is not shown to have stayed the same it is fitted as one that may change: a change that the readings could not
 * tell would leave too narrow an interval otherwise.
 *
 * @param problem - with a gap that is constant [-]
 * @returns verdict, and the fit that goes with it; null: something is not determined at all [-]
 *
 * Source: Burnham and Anderson (2002), Model Selection and Multimodel Inference, 2.4 (AICc).
 */
export function fitAndTestGap(problem: FitProblem): TestedGap | null {
  const rough = roughFit(problem);
  if (rough === null) return null;
  // Where it lies far from the readings it is not worth an exact search before a changing one has been tried.
  const constant = rough.noiseFactor < FAR_FROM_READINGS ? fitUnknowns(problem, rough) : rough;
  if (constant === null) return null;
  const wider: FitProblem = { ...problem, mayGapChange: true };
  const changing = roughlyChanging(wider, constant);
  const tested = (verdict: GapChangeVerdict, of: FitProblem, from: SearchedFit): TestedGap | null => {
    const fit = from === constant && constant !== rough ? constant : fitUnknowns(of, from);
    return fit === null ? null : { verdict, problem: of, fit };
  };
  if (changing === null) return tested('undecided', problem, constant);
  const gain = Math.max(0, deviance(constant) - deviance(changing));
  const better =
    correctedAic(constant, fittedCount(problem)) - correctedAic(changing, fittedCount(wider)) > CLEARLY_BETTER;
  const isRare = fUpperTail(gain / 2, 2, constant.readingCount - fittedCount(wider)) < RARE;
  if (better && isRare) return tested('changes', wider, changing);
  const { logStandardDeviation } = PUMP_RANGES.gapChangeRatio;
  const ratio = logStandardDeviation * (changing.parameters[GAP_CHANGE_RATIO] ?? Number.NaN);
  const deviation = logStandardDeviation * Math.sqrt(changing.covariance[GAP_CHANGE_RATIO]?.[GAP_CHANGE_RATIO] ?? 1);
  const isConstant = Math.abs(ratio) + 2 * deviation < CONSTANT_WITHIN;
  return isConstant ? tested('constant', problem, constant) : tested('undecided', wider, changing);
}
