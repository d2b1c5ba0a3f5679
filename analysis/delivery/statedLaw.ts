import { refusalOf } from '../outcome.ts';
import type { Fitted, SlipLaw } from '../result.ts';
import type { HoldState } from '../steady/holdState.ts';
import type { Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import type { DeliveryChecks, FittedRun } from './analyseDelivery.ts';
import { twoStepCapacity } from './twoStepCapacity.ts';

type State = (uncertain: Uncertain) => Stated;

/** The law in numbers that can be printed: every coefficient with its expanded uncertainty and budget. */
export function statedLaw({ fit, range }: FittedRun, state: State): SlipLaw {
  const { uncertain } = fit;
  return {
    coefficients: fit.coefficients,
    uncertain,
    stated: {
      derivedCapacityM3PerRev: state(uncertain.derivedCapacityM3PerRev),
      laminarSlipM3: state(uncertain.laminarSlipM3),
      orificeSlipM2: state(uncertain.orificeSlipM2),
      speedPressureSlipM3PerPa: state(uncertain.speedPressureSlipM3PerPa),
    },
    terms: fit.terms,
    termChoice: fit.termChoice,
    lackOfFit: fit.lackOfFit,
    holdCount: fit.weights.length,
    residualDegreesOfFreedom: fit.residualDegreesOfFreedom,
    reducedChiSquare: fit.reducedChiSquare,
    betweenHoldsM3PerS: fit.betweenHoldsM3PerS,
    range,
  };
}

/** The capacity by two straight lines beside that of the law. */
export function statedTwoStep({ fit }: FittedRun, fitted: readonly HoldState[], state: State): Fitted['twoStep'] {
  const found = twoStepCapacity(fitted, fit);
  if (!found.ok) return refusalOf(found.reason);
  const { derivedCapacityM3PerRev, differenceM3PerRev, levels, unusedHoldNumbers } = found.value;
  return {
    ok: true,
    value: {
      derivedCapacityM3PerRev: state(derivedCapacityM3PerRev),
      differenceM3PerRev: state(differenceM3PerRev),
      levels: levels.map((level) => ({ ...level, slopeM3PerRev: state(level.slopeM3PerRev) })),
      unusedHoldNumbers,
    },
  };
}

/** The drain; null where the bench reads none. */
export function statedDrain({ drain }: FittedRun, state: State): Fitted['drain'] {
  if (drain === null) return null;
  if (!drain.ok) return refusalOf(drain.reason);
  const { drainCoefficientM3, holdNumbers } = drain.value;
  return {
    ok: true,
    value: { drainCoefficientM3: state(drainCoefficientM3), uncertain: drainCoefficientM3, holdNumbers },
  };
}

/** What is not slip, in numbers that can be printed. */
export function statedChecks(
  { filling, relief, drift, air, hysteresis }: DeliveryChecks,
  state: State,
): Fitted['checks'] {
  return {
    filling:
      filling.read === 'cannot tell'
        ? filling
        : {
            read: filling.read,
            text: filling.text,
            numbers: {
              levels: filling.numbers.levels.map(({ speedRevPerS, flowPerTurnM3PerRev }) => ({
                speedRevPerS,
                flowPerTurnM3PerRev: state(flowPerTurnM3PerRev),
              })),
              largestFall: state(filling.numbers.largestFall),
              knee: filling.numbers.knee,
              holdNumbersBeyond: filling.numbers.holdNumbersBeyond,
            },
          },
    relief:
      relief.read === 'cannot tell'
        ? relief
        : {
            read: relief.read,
            text: relief.text,
            numbers: {
              ...relief.numbers.between,
              lostShare: relief.numbers.lostShare,
              lostShareStandardUncertainty: relief.numbers.lostShareStandardUncertainty,
              chanceProbability: relief.numbers.chanceProbability,
              holdNumbersBeyond: relief.numbers.holdNumbersBeyond,
            },
          },
    drift:
      drift.read === 'cannot tell'
        ? drift
        : {
            read: drift.read,
            text: drift.text,
            numbers: {
              firstHoldNumber: drift.numbers.firstHoldNumber,
              repeatHoldNumber: drift.numbers.repeatHoldNumber,
              shift: state(drift.numbers.shift),
            },
          },
    air:
      air.read === 'cannot tell'
        ? air
        : {
            read: air.read,
            text: air.text,
            numbers: { pairs: air.numbers.pairs.map((pair) => ({ ...pair, lost: state(pair.lost) })) },
          },
    hysteresis:
      hysteresis.read === 'cannot tell'
        ? hysteresis
        : {
            read: hysteresis.read,
            text: hysteresis.text,
            numbers: {
              pairs: hysteresis.numbers.pairs.map((pair) => ({ ...pair, difference: state(pair.difference) })),
            },
          },
  };
}
