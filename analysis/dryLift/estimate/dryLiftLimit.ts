import type { Uncertain } from '../../uncertainty/source.ts';
import type { DryPumpFit } from '../fit/dryPumpFit.ts';
import { type Interval, intervalOf, onScale, uncertainOf } from '../fit/functionOfFit.ts';
import type { StartSurroundings } from '../fit/measuredStartTypes.ts';
import { blankOffPressure } from '../model/blankedSuction.ts';
import { liftOfPressure } from '../model/liftOfPressure.ts';

/** Where a limit is asked for: air and oil there. */
export type LimitSurroundings = Pick<StartSurroundings, 'atmospherePa' | 'densityKgPerM3'>;

/** Always at a speed and in a wetness class. */
export type DryLiftEstimate = {
  readonly speedRevPerS: number;
  readonly limitM: Interval;
  /** The same with its sensitivities, for a budget; its linear interval is no match for the other. */
  readonly limitUncertainM: Uncertain;
  readonly blankOffPressurePa: Interval;
};

/** Surroundings of the fit's first start. */
function surroundingsOf(fit: DryPumpFit): StartSurroundings {
  const first = fit.problem.starts[0];
  if (first === undefined) throw new RangeError('fit: it has no starts');
  return first.surroundings;
}

/** Blank-off pressure at parameters of a fit [Pa]. */
function blankOffPa(
  fit: DryPumpFit,
  surroundings: LimitSurroundings,
  speedRevPerS: number,
  parameters: readonly number[],
): number {
  const running = fit.search.space.running(surroundings, () => speedRevPerS, parameters);
  return blankOffPressure(running, speedRevPerS);
}

/**
 * Dry lift limit and blank-off pressure of a fitted pump at a speed: the limit on a logarithmic scale, the pressure as its
 * share of the atmosphere on a logistic one; the limit's interval ends at the latest where a vacuum would lift the oil.
 *
 * @param fit - of a dry pump [-]
 * @param speedRevPerS - shaft speed, > 0 [rev/s]
 * @param surroundings - air and oil; those of the first start unless given [Pa, kg/m³]
 * @returns limit and blank-off pressure with intervals of 95 % [m, Pa]
 * @throws RangeError if the speed is not above zero
 *
 * Source: definition in this project; gas balance derived in ../model.
 */
export function estimateDryLift(
  fit: DryPumpFit,
  speedRevPerS: number,
  surroundings: LimitSurroundings = surroundingsOf(fit),
): DryLiftEstimate {
  const { space } = fit.search;
  const limitM = (parameters: readonly number[]): number =>
    liftOfPressure(
      space.inputAt(surroundings.atmospherePa, parameters),
      blankOffPa(fit, surroundings, speedRevPerS, parameters),
      space.inputAt(surroundings.densityKgPerM3, parameters),
    );
  const shareLogit = (parameters: readonly number[]): number => {
    const share =
      blankOffPa(fit, surroundings, speedRevPerS, parameters) / space.inputAt(surroundings.atmospherePa, parameters);
    return Math.log(share / (1 - share));
  };
  const vacuumM = (parameters: readonly number[]): number =>
    liftOfPressure(
      space.inputAt(surroundings.atmospherePa, parameters),
      0,
      space.inputAt(surroundings.densityKgPerM3, parameters),
    );
  const limit = onScale(
    intervalOf(fit, (parameters) => Math.log(limitM(parameters))),
    Math.exp,
  );
  const highest = intervalOf(fit, vacuumM);
  const airPa = surroundings.atmospherePa.value;
  return {
    speedRevPerS,
    limitM: { ...limit, upper: Math.min(limit.upper, highest.upper) },
    limitUncertainM: uncertainOf(fit, limitM),
    blankOffPressurePa: onScale(intervalOf(fit, shareLogit), (logit) => airPa / (1 + Math.exp(-logit))),
  };
}
