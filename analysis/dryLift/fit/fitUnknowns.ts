import {
  fitSensitivities,
  type LeastSquaresProblem,
  levenbergMarquardt,
  type NonlinearFit,
  sumOfSquares,
} from '../../fitting/levenbergMarquardt.ts';
import { type FitProblem, type FitSpace, fitSpace, LOG_DEAD_VOLUME, LOG_LEAK } from './fitSpace.ts';
import { predictStart } from './predictStart.ts';

/** Leak-back at the starts of the search, as logarithms over the middle of its range. */
const START_LEAKS: readonly number[] = [-2, 0.5, 3, 5.5, 8];

/** A sum of squares that may still fall by this share is as good as the least [1]. */
const GAIN_TOLERANCE = 1e-5;
const COARSE_GAIN_TOLERANCE = 1e-3;
/** For a fit that is only held against another one: a tenth of what would count between the two. */
const ROUGH_GAIN_TOLERANCE = 3e-4;
/** A gap that is constant is near by then, or it was not constant [1]. */
const MOST_ROUGH_ITERATIONS = 20;
/** Differences on the way reach so far, of the step of those where it ends: further, and they would draw it aside [1]. */
const FORWARD_REACH = 0.05;
const MOST_COARSE_ITERATIONS = 40;
/** So many of the starts, those with the least sum of squares, are searched from. */
const SEARCHED_STARTS = 2;
const MOST_REWEIGHTINGS = 3;
/** Scatter beyond the noise that is chance [1]. */
const CHANCE_SCATTER = 1.02;

export type SearchedFit = {
  readonly space: FitSpace;
  readonly parameters: readonly number[];
  /** Of readings and expectations, each over its standard deviation. */
  readonly sumOfSquares: number;
  readonly readingCount: number;
  /** Scatter of the readings about the model over their noise; above one it widened the noise [1]. */
  readonly noiseFactor: number;
  readonly residuals: Residuals;
  /** (JᵀJ)⁻¹ [p × p] and (JᵀJ)⁻¹Jᵀ [p × m]. */
  readonly covariance: readonly (readonly number[])[];
  readonly pseudoInverse: readonly (readonly number[])[];
  readonly jacobian: readonly (readonly number[])[];
  readonly hasConverged: boolean;
  readonly iterations: number;
  readonly startCount: number;
};

type Residuals = (parameters: readonly number[]) => readonly number[];

function readingCountOf({ starts }: FitProblem): number {
  return starts.reduce((sum, { timesS }) => sum + timesS.length, 0);
}

function deviationOf(standardDeviation: number): number {
  return Math.max(standardDeviation, 1e-9);
}

/** Readings against prediction, then unknowns against expectation; NaN where no start can have these parameters. */
function residualsOf(problem: FitProblem, space: FitSpace, noiseFactor: number): Residuals {
  let lastParameters: readonly number[] | null = null;
  let lastResiduals: readonly number[] = [];
  const readingCount = readingCountOf(problem);
  const at = (parameters: readonly number[]): readonly number[] => {
    const residuals: number[] = [];
    try {
      for (const start of problem.starts) {
        const predicted = predictStart(start, space, parameters);
        for (const [index, pressure] of start.pressuresPa.entries()) {
          const deviationPa = noiseFactor * (start.standardDeviationsPa[index] ?? Number.NaN);
          residuals.push((space.inputAt(pressure, parameters) - (predicted[index] ?? Number.NaN)) / deviationPa);
        }
      }
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      return new Array<number>(readingCount + space.unknowns.length).fill(Number.NaN);
    }
    for (const [index, { expected, standardDeviation }] of space.unknowns.entries()) {
      residuals.push((space.expectable(parameters, index) - expected) / deviationOf(standardDeviation));
    }
    return residuals;
  };
  // The Jacobian begins where the search has just been.
  return (parameters) => {
    if (parameters !== lastParameters) {
      lastResiduals = at(parameters);
      lastParameters = parameters;
    }
    return lastResiduals;
  };
}

function shifted(parameters: readonly number[], index: number, by: number): readonly number[] {
  return parameters.map((value, other) => (other === index ? value + by : value));
}

/** How the residuals are differentiated where they bend: forwards on the way, centrally where the search ends. */
type Differences = 'forward' | 'central';

/**
 * Jacobian by differences; what acts nearly straight is differenced once, at the first parameters, and what acts on the
 * readings alone without the model.
 */
function jacobianOf(
  problem: FitProblem,
  space: FitSpace,
  residuals: Residuals,
  noiseFactor: number,
  differences: Differences,
) {
  const straight = new Map<number, readonly number[]>();
  const slopesAlong = (parameters: readonly number[], index: number, step: number): readonly number[] => {
    const up = residuals(shifted(parameters, index, step));
    const down = residuals(shifted(parameters, index, -step));
    return up.map((value, row) => (value - (down[row] ?? Number.NaN)) / (2 * step));
  };
  const slopesUp = (
    parameters: readonly number[],
    here: readonly number[],
    index: number,
    step: number,
  ): readonly number[] => {
    const up = residuals(shifted(parameters, index, step));
    return up.map((value, row) => (value - (here[row] ?? Number.NaN)) / step);
  };
  const onReadings = (parameters: readonly number[], index: number): readonly number[] => {
    const rows = problem.starts.flatMap((start) =>
      start.pressuresPa.map((pressure, at) => {
        const deviationPa = noiseFactor * (start.standardDeviationsPa[at] ?? Number.NaN);
        const moved = space.inputAt(pressure, shifted(parameters, index, 1));
        return (moved - space.inputAt(pressure, parameters)) / deviationPa;
      }),
    );
    return [
      ...rows,
      ...space.unknowns.map(({ standardDeviation }, at) => (at === index ? 1 / deviationOf(standardDeviation) : 0)),
    ];
  };
  return (parameters: readonly number[]): readonly (readonly number[])[] => {
    const here = residuals(parameters);
    const columns = space.unknowns.map(({ acts, step }, index) => {
      if (acts === 'bent' && differences === 'central') return slopesAlong(parameters, index, step);
      if (acts === 'bent') return slopesUp(parameters, here, index, FORWARD_REACH * step);
      const known = straight.get(index);
      if (known !== undefined) return known;
      const column = acts === 'on readings' ? onReadings(parameters, index) : slopesUp(parameters, here, index, step);
      straight.set(index, column);
      return column;
    });
    return (columns[0] ?? []).map((_, row) => columns.map((column) => column[row] ?? Number.NaN));
  };
}

/** Leak-back and dead volume alone, the rest as expected: several starts, each cheap; the best, or null if none is possible. */
function coarseSearch(residuals: Residuals, space: FitSpace): readonly number[] | null {
  const expected = space.unknowns.map((unknown) => unknown.expected);
  const full = ([gap = Number.NaN, dead = Number.NaN]: readonly number[]): readonly number[] =>
    expected.map((value, index) => (index === LOG_LEAK ? gap : index === LOG_DEAD_VOLUME ? dead : value));
  const pair: LeastSquaresProblem = {
    residuals: (values) => residuals(full(values)),
    jacobian: null,
    differenceSteps: [0.02, 0.02],
    mostIterations: MOST_COARSE_ITERATIONS,
    gainTolerance: COARSE_GAIN_TOLERANCE,
  };
  const starts = START_LEAKS.map((leak) => [(expected[LOG_LEAK] ?? 0) + leak, expected[LOG_DEAD_VOLUME] ?? 0]);
  const promising = starts
    .map((start) => ({ start, cost: sumOfSquares(residuals(full(start))) }))
    .filter(({ cost }) => Number.isFinite(cost))
    .sort((a, b) => a.cost - b.cost)
    .slice(0, SEARCHED_STARTS);
  const [first, ...others] = promising.map(({ start }) => levenbergMarquardt(pair, start));
  if (first === undefined) return null;
  return full(others.reduce((least, fit) => (fit.sumOfSquares < least.sumOfSquares ? fit : least), first).parameters);
}

/** A fit as it stands at the end of a search whose noise was widened by a factor; null: something is not determined at all. */
function searchedFit(
  problem: FitProblem,
  space: FitSpace,
  { parameters, residuals, jacobian, hasConverged }: NonlinearFit,
  at: { readonly noiseFactor: number; readonly iterations: number },
): SearchedFit | null {
  const sensitivities = fitSensitivities(jacobian);
  if (sensitivities === null) return null;
  return {
    space,
    parameters,
    sumOfSquares: sumOfSquares(residuals),
    readingCount: readingCountOf(problem),
    residuals: residualsOf(problem, space, at.noiseFactor),
    jacobian: jacobian.to2DArray(),
    covariance: sensitivities.covarianceUnscaled,
    pseudoInverse: sensitivities.pseudoInverse,
    hasConverged,
    // Every search goes back to the coarse one.
    startCount: START_LEAKS.length,
    ...at,
  };
}

/** Scatter of the readings about the model over the noise that they were searched with [1]. */
function scatterOf(problem: FitProblem, { residuals }: NonlinearFit): number {
  const count = readingCountOf(problem);
  return Math.sqrt(sumOfSquares(residuals.slice(0, count)) / Math.max(1, count - fittedCount(problem)));
}

/** The end of a search with its readings' noise widened by a factor, without another search. */
function withNoise(problem: FitProblem, fit: NonlinearFit, factor: number): NonlinearFit {
  const count = readingCountOf(problem);
  const jacobian = fit.jacobian.clone();
  for (let row = 0; row < count; row += 1) jacobian.mulRow(row, 1 / factor);
  return { ...fit, jacobian, residuals: fit.residuals.map((value, row) => (row < count ? value / factor : value)) };
}

function searchFrom(
  problem: FitProblem,
  space: FitSpace,
  start: readonly number[],
  how: { readonly noiseFactor: number; readonly differences: Differences; readonly gainTolerance: number },
): NonlinearFit {
  const residuals = residualsOf(problem, space, how.noiseFactor);
  return levenbergMarquardt(
    {
      residuals,
      jacobian: jacobianOf(problem, space, residuals, how.noiseFactor, how.differences),
      differenceSteps: null,
      mostIterations: problem.mostIterations,
      gainTolerance: how.gainTolerance,
    },
    start,
  );
}

/**
 * Where a search ends up, good enough to be held against another one and to go on from, not to be propagated.
 *
 * @param problem - starts, capacity, dead volume, sources [SI]
 * @param from - parameters to begin with, of the same unknowns; null: searched, from several starts [-]
 * @returns as fitUnknowns [-]
 */
export function roughFit(problem: FitProblem, from: readonly number[] | null = null): SearchedFit | null {
  const space = fitSpace(problem);
  const begin = from ?? coarseSearch(residualsOf(problem, space, 1), space);
  if (begin === null) return null;
  const how = { noiseFactor: 1, differences: 'forward', gainTolerance: ROUGH_GAIN_TOLERANCE } as const;
  const mostIterations = problem.mayGapChange
    ? problem.mostIterations
    : Math.min(problem.mostIterations, MOST_ROUGH_ITERATIONS);
  const fit = searchFrom({ ...problem, mostIterations }, space, begin, how);
  const scatter = scatterOf(problem, fit);
  const noiseFactor = scatter > CHANCE_SCATTER ? scatter : 1;
  return searchedFit(problem, space, withNoise(problem, fit, noiseFactor), {
    noiseFactor,
    iterations: fit.iterations,
  });
}

/**
 * The unknowns of a fit by Levenberg's and Marquardt's method, onward from a rough one: all together; where the readings
 * scatter more about the model than their noise, the noise is widened until they do not.
 *
 * @param problem - starts, capacity, dead volume, sources [SI]
 * @param rough - the rough fit of the same problem [-]
 * @returns parameters, their covariance and what is needed to propagate errors; null: something is not determined at all [-]
 */
export function fitUnknowns(problem: FitProblem, rough: SearchedFit): SearchedFit | null {
  const { space } = rough;
  const how = { differences: 'central', gainTolerance: GAIN_TOLERANCE } as const;
  let noiseFactor = rough.noiseFactor;
  let fit = searchFrom(problem, space, rough.parameters, { ...how, noiseFactor });
  let iterations = rough.iterations + fit.iterations;
  for (let turn = 0; turn < MOST_REWEIGHTINGS; turn += 1) {
    const scatter = Math.max(scatterOf(problem, fit), 1 / noiseFactor);
    if (Math.abs(scatter - 1) < CHANCE_SCATTER - 1) break;
    noiseFactor *= scatter;
    fit = searchFrom(problem, space, fit.parameters, { ...how, noiseFactor });
    iterations += fit.iterations;
  }
  return searchedFit(problem, space, fit, { noiseFactor, iterations });
}

/** Unknowns without any expectation worth the name: leak-back, dead volume, and the change of the gap. */
export function fittedCount({ mayGapChange }: Pick<FitProblem, 'mayGapChange'>): number {
  return mayGapChange ? 4 : 2;
}
