import { mean, median } from 'simple-statistics';
import { evenly } from '../evenly.ts';
import { decimalsFor, formatProbability, printFixed, printRpm } from '../formatStated.ts';
import type { HoldState } from '../steady/holdState.ts';
import type { Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { differenceFrom, unitOf } from '../units.ts';
import type { SlipFit } from './fitSlip.ts';
import { fittedFlow, type LawPoint, lawRegressors } from './slipLaw.ts';

/** Candidates a side of the grid over speed and pressure [1]. */
const GRID = 15;

/** One hold is worth its while when it takes this share off the standard uncertainty [1]; common practice, no source. */
const WORTH_WHILE = 0.05;

/** A share this near one half is called half [1]. */
const HALF = [0.45, 0.55] as const;

/** What bench and pump allow. */
export type Reach = {
  readonly speedRevPerS: readonly [number, number];
  readonly differentialPressurePa: readonly [number, number];
};

/** The number that is to become surer. */
export type Goal = { readonly kind: 'derivedCapacity' } | { readonly kind: 'flow'; readonly at: LawPoint };

export type NextHold = {
  readonly speedRevPerS: number;
  readonly differentialPressurePa: number;
  /** Standard uncertainty of the goal now and with the hold, in the goal's SI unit. */
  readonly before: number;
  readonly after: number;
  /** The part that no further hold touches: calibrations and the oil. */
  readonly calibrationPart: number;
  readonly isWorthWhile: boolean;
  readonly text: string;
};

function quadraticForm(matrix: readonly (readonly number[])[], a: readonly number[], b: readonly number[]): number {
  return matrix.reduce(
    (sum, row, i) => sum + (a[i] ?? 0) * row.reduce((inner, entry, j) => inner + entry * (b[j] ?? 0), 0),
    0,
  );
}

function textOf(goal: Goal, next: Omit<NextHold, 'text'>): string {
  const [words, unit, symbol] =
    goal.kind === 'derivedCapacity'
      ? (['the derived capacity', unitOf('cm3/rev'), 'cm³/rev'] as const)
      : (['the flow at the duty', unitOf('l/min'), 'l/min'] as const);
  const inUnit = (value: number): string => {
    const printed = differenceFrom(value, unit);
    return printFixed(printed, printed === 0 ? 0 : decimalsFor(printed, 2));
  };
  if (!next.isWorthWhile) {
    const share = next.calibrationPart ** 2 / next.before ** 2;
    return share > 0.5
      ? `No further hold helps much: ${formatProbability(share)} of the variance of ${words} comes from calibrations and the oil, which every hold shares. A better calibration would help.`
      : `No single further hold helps much; the best takes the standard uncertainty of ${words} from ${inUnit(next.before)} to ${inUnit(next.after)} ${symbol}. Repeat several.`;
  }
  const bar = differenceFrom(next.differentialPressurePa, unitOf('bar(a)'));
  const at = `One more hold at ${printRpm(next.speedRevPerS)} r/min and ${printFixed(bar, bar === 0 ? 0 : decimalsFor(bar, 2))} bar`;
  const ratio = next.after / next.before;
  const effect =
    ratio >= HALF[0] && ratio <= HALF[1]
      ? `halves the standard uncertainty of ${words}`
      : `takes ${printFixed(100 * (1 - ratio), 0)} % off the standard uncertainty of ${words}`;
  return `${at} ${effect}: from ${inUnit(next.before)} to ${inUnit(next.after)} ${symbol}.`;
}

/**
 * The set point within reach at which one more hold would narrow a result most. A hold with regressors x and weight w
 * takes w (gᵀCx)²/(1 + w xᵀCx) off the random variance gᵀCg of a goal with gradient g, C the covariance of the full model.
 * The new hold is taken to scatter like the median one, in the mean oil of the run; what comes from calibrations and the
 * oil is left as it is; that more degrees of freedom narrow the expanded uncertainty besides is not counted.
 *
 * @param fit - the fitted law [-]
 * @param holds - the holds it was fitted to [n holds]
 * @param reach - lowest and highest speed and pressure difference [rev/s, Pa]
 * @param goal - derived capacity, or the flow at a point [-]
 * @param state - states a value with the sources of the run and of the fit [-]
 * @returns the best set point, the goal's standard uncertainty now and then, and a sentence [rev/s, Pa, SI]
 * @throws RangeError if the reach is empty
 *
 * Source: Sherman and Morrison (1950), Annals of Mathematical Statistics 21, 124-127; c-optimal design, Fedorov, Theory
 * of Optimal Experiments (1972).
 */
export function nextBestHold(
  fit: SlipFit,
  holds: readonly HoldState[],
  reach: Reach,
  goal: Goal,
  state: (uncertain: Uncertain) => Stated,
): NextHold {
  for (const [low, high] of [reach.speedRevPerS, reach.differentialPressurePa]) {
    if (!(low <= high)) throw new RangeError(`reach: ${low} to ${high} holds no set point`);
  }
  const gradientOf = (point: LawPoint): readonly number[] => {
    const regressors = lawRegressors(point);
    return fit.terms.map((term) => regressors[term]);
  };
  const gradient =
    goal.kind === 'flow' ? gradientOf(goal.at) : fit.terms.map((term) => (term === 'derivedCapacityM3PerRev' ? 1 : 0));
  const value = goal.kind === 'flow' ? fittedFlow(fit, goal.at) : fit.uncertain.derivedCapacityM3PerRev;
  const before = state(value).standardUncertainty;
  const randomVariance = quadraticForm(fit.covariance, gradient, gradient);
  const calibrationVariance = Math.max(0, before ** 2 - randomVariance);
  const weight = median([...fit.weights]);
  const oil = {
    dynamicViscosityPaS: mean(holds.map((hold) => hold.dynamicViscosityPaS.value)),
    densityKgPerM3: mean(holds.map((hold) => hold.densityKgPerM3.value)),
  };
  let best = { speedRevPerS: reach.speedRevPerS[0], differentialPressurePa: reach.differentialPressurePa[0], gain: -1 };
  for (const speedRevPerS of evenly(...reach.speedRevPerS, GRID)) {
    for (const differentialPressurePa of evenly(...reach.differentialPressurePa, GRID)) {
      const x = gradientOf({ speedRevPerS, differentialPressurePa, ...oil });
      const shared = quadraticForm(fit.covariance, gradient, x);
      const gain = (weight * shared ** 2) / (1 + weight * quadraticForm(fit.covariance, x, x));
      if (gain > best.gain) best = { speedRevPerS, differentialPressurePa, gain };
    }
  }
  const after = Math.sqrt(Math.max(0, randomVariance - best.gain) + calibrationVariance);
  const next = {
    speedRevPerS: best.speedRevPerS,
    differentialPressurePa: best.differentialPressurePa,
    before,
    after,
    calibrationPart: Math.sqrt(calibrationVariance),
    isWorthWhile: after < (1 - WORTH_WHILE) * before,
  };
  return { ...next, text: textOf(goal, next) };
}
