import { mean } from 'simple-statistics';
import { no, type Outcome, yes } from '../outcome.ts';
import type { HoldState } from '../steady/holdState.ts';
import { combine, type Uncertain } from '../uncertainty/source.ts';
import { type SlipFit, scatterSourceId } from './fitSlip.ts';
import { weightedLeastSquares } from './leastSquares.ts';
import { levelsOf } from './levels.ts';

/** A straight line takes two points; one more shows whether it is one [1]. */
const LEAST_LEVELS = 3;
const LEAST_HOLDS_PER_LEVEL = 3;

type PressureLevel = {
  /** Mean of the level's holds [Pa]. */
  readonly differentialPressurePa: number;
  readonly holdNumbers: readonly number[];
  /** Slope of flow against speed at this pressure [m³/rev]. */
  readonly slopeM3PerRev: Uncertain;
};

export type TwoStepCapacity = {
  readonly derivedCapacityM3PerRev: Uncertain;
  /** Two-step minus slip law; what both share cancels in its uncertainty. */
  readonly differenceM3PerRev: Uncertain;
  /** Lowest pressure first. */
  readonly levels: readonly PressureLevel[];
  /** Holds that stand in no level with others of another speed. */
  readonly unusedHoldNumbers: readonly number[];
};

export type TwoStepRefusal = {
  readonly code: 'TOO_FEW_LEVELS';
  readonly got: number;
  readonly needed: number;
  readonly text: string;
};

type Slope = { readonly pressurePa: Uncertain; readonly slope: Uncertain; readonly variance: number };

/** Step 1: q = a + b n at one pressure; ∂b/∂s = Σ A_i ∂(q_i − b n_i)/∂s. Null where the level has one speed. */
function slopeOf(level: readonly HoldState[], weightOf: (hold: HoldState) => number): Slope | null {
  const line = weightedLeastSquares(
    level.map((hold) => [1, hold.speedRevPerS.value]),
    level.map((hold) => hold.inletFlowM3PerS.value),
    level.map(weightOf),
  );
  if (!line.ok || levelsOf(level, (hold) => hold.speedRevPerS.value).length < 2) return null;
  const slope = line.value.coefficients[1] ?? 0;
  const row = line.value.pseudoInverse[1] ?? [];
  return {
    slope: combine(
      slope,
      level.flatMap((hold, index) => {
        const derivative = row[index] ?? 0;
        return [
          { input: hold.inletFlowM3PerS, derivative },
          { input: hold.speedRevPerS, derivative: -derivative * slope },
          { input: { value: 0, sensitivities: { [scatterSourceId(hold)]: 1 } }, derivative },
        ];
      }),
    ),
    pressurePa: combine(
      mean(level.map((hold) => hold.differentialPressurePa.value)),
      level.map((hold) => ({ input: hold.differentialPressurePa, derivative: 1 / level.length })),
    ),
    variance: line.value.covarianceUnscaled[1]?.[1] ?? Number.NaN,
  };
}

function refusal(got: number): TwoStepRefusal {
  return {
    code: 'TOO_FEW_LEVELS',
    got,
    needed: LEAST_LEVELS,
    text: `Flow against speed could be drawn at ${got === 0 ? 'no pressure' : got === 1 ? 'one pressure' : `${got} pressures`} only; carrying the slopes to zero pressure takes ${LEAST_LEVELS}, each with ${LEAST_HOLDS_PER_LEVEL} holds at two speeds or more. Add speeds at the pressures already held, so that each pressure is met at every speed.`,
  };
}

/**
 * Derived capacity by two straight lines, in the manner of ISO 8426: flow against speed at each pressure level, then the
 * slopes against pressure, carried to zero pressure. What of the slip does not depend on speed falls out in the first
 * step, whatever its law; that is why it stands beside the capacity of the slip law.
 *
 * @param holds - the fitted holds, in any order [n holds]
 * @param fit - their slip law: weights, scatter between holds, and the capacity to compare with [-]
 * @returns capacity and its difference from the slip law's with sensitivities to every source, or what is missing [-]
 *
 * Source: the method as described by Toet et al. (2019), Energies 12, 415; ISO 8426 itself was not read. Weights: first
 * step those of the fit, second step one over the variance of each slope. Sensitivities as in fitSlip.
 */
export function twoStepCapacity(holds: readonly HoldState[], fit: SlipFit): Outcome<TwoStepCapacity, TwoStepRefusal> {
  const weightByNumber = new Map(holds.map((hold, index) => [hold.number, fit.weights[index] ?? Number.NaN]));
  const levels = levelsOf(holds, (hold) => hold.differentialPressurePa.value).flatMap((level) => {
    const found = slopeOf(level, (hold) => weightByNumber.get(hold.number) ?? Number.NaN);
    return found === null ? [] : [{ ...found, holdNumbers: level.map((hold) => hold.number) }];
  });
  const line = weightedLeastSquares(
    levels.map(({ pressurePa }) => [1, pressurePa.value]),
    levels.map(({ slope }) => slope.value),
    levels.map(({ variance }) => 1 / variance),
  );
  if (levels.length < LEAST_LEVELS || !line.ok) return no(refusal(levels.length));
  const [capacity = Number.NaN, slopePerPa = Number.NaN] = line.value.coefficients;
  const row = line.value.pseudoInverse[0] ?? [];
  const derivedCapacityM3PerRev = combine(
    capacity,
    levels.flatMap(({ slope, pressurePa }, index) => [
      { input: slope, derivative: row[index] ?? 0 },
      { input: pressurePa, derivative: -(row[index] ?? 0) * slopePerPa },
    ]),
  );
  const byLaw = fit.uncertain.derivedCapacityM3PerRev;
  const used = new Set(levels.flatMap(({ holdNumbers }) => holdNumbers));
  return yes({
    derivedCapacityM3PerRev,
    differenceM3PerRev: combine(capacity - byLaw.value, [
      { input: derivedCapacityM3PerRev, derivative: 1 },
      { input: byLaw, derivative: -1 },
    ]),
    levels: levels.map(({ pressurePa, slope, holdNumbers }) => ({
      differentialPressurePa: pressurePa.value,
      holdNumbers,
      slopeM3PerRev: slope,
    })),
    unusedHoldNumbers: holds.map((hold) => hold.number).filter((number) => !used.has(number)),
  });
}
