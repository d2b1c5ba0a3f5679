import type { Coefficients } from '../delivery/slipLaw.ts';
import { printRpm } from '../formatStated.ts';
import type { HoldState } from '../steady/holdState.ts';
import type { SourceTable, Uncertain } from '../uncertainty/source.ts';
import { type CheckRead, isBeyondChance, percentWithin } from './checkRead.ts';
import { lawShift } from './lawDeparture.ts';
import { inBar, isSamePressure, isSameSetPoint, isSameSpeed, takenInOrder } from './setPoints.ts';
import { statedShare } from './statedShare.ts';

/** The same set point reached from a lower and from a higher pressure. */
type HysteresisPair = {
  readonly fromBelowHoldNumber: number;
  readonly fromAboveHoldNumber: number;
  readonly speedRevPerS: number;
  readonly differentialPressurePa: number;
  /** Flow per turn from above less from below, slip made alike, a share of V_i [1]. */
  readonly difference: Uncertain;
};

export type HysteresisNumbers = { readonly pairs: readonly HysteresisPair[]; readonly largest: HysteresisPair };

/** A smaller difference needs no words: a house limit [1]. */
const SMALLEST_DIFFERENCE = 0.005;

/** From where a hold was reached: by the hold before it, at the same speed; null where that says nothing. */
function reachedFrom(taken: readonly HoldState[], index: number): 'below' | 'above' | null {
  const hold = taken[index];
  const before = taken[index - 1];
  if (hold === undefined || before === undefined || !isSameSpeed(before, hold)) return null;
  const [here, there] = [hold.differentialPressurePa.value, before.differentialPressurePa.value];
  if (isSamePressure(here, there)) return null;
  return there < here ? 'below' : 'above';
}

/**
 * Does it matter whether a pressure is reached from below or from above? Only holds of one speed are compared, each
 * reached from a neighbouring hold of that speed; the difference is that of flow per turn, referred to the law. Sticking
 * bushes or vanes, a relief valve and a gauge that lags all show so; so does drift between the two.
 *
 * @param holds - of one run; those left out take no part [n holds]
 * @param coefficients - of the fitted law [m³/rev, m³, m², m³/Pa]
 * @param sources - every source that the holds are sensitive to [-]
 * @returns the pairs compared and the one that differs most, or what is missing to tell [1]
 *
 * Source: derived here; the least difference that counts, 0.5 %, is a house limit.
 */
export function hysteresisCheck(
  holds: readonly HoldState[],
  coefficients: Coefficients,
  sources: SourceTable,
): CheckRead<HysteresisNumbers, 'ONE_DIRECTION'> {
  const taken = takenInOrder(holds);
  const reached = taken.map((hold, index) => ({ hold, from: reachedFrom(taken, index) }));
  const pairs = reached.flatMap(({ hold: below, from }) =>
    from !== 'below'
      ? []
      : reached
          .filter(({ hold: above, from: other }) => other === 'above' && isSameSetPoint(below, above))
          .map(
            ({ hold: above }): HysteresisPair => ({
              fromBelowHoldNumber: below.number,
              fromAboveHoldNumber: above.number,
              speedRevPerS: below.speedRevPerS.value,
              differentialPressurePa: below.differentialPressurePa.value,
              difference: lawShift(below, above, coefficients),
            }),
          ),
  );
  const largest = pairs.reduce<HysteresisPair | null>(
    (most, pair) => (most === null || Math.abs(pair.difference.value) > Math.abs(most.difference.value) ? pair : most),
    null,
  );
  if (largest === null) {
    return {
      read: 'cannot tell',
      code: 'ONE_DIRECTION',
      text: 'Whether flow depends on the way a pressure is reached cannot be told: no pressure was reached from below and from above at one speed. Take the pressures of one speed up and down again.',
    };
  }
  const numbers = { pairs, largest };
  const { difference } = largest;
  const isLess = difference.value < 0;
  const size: Uncertain = { ...difference, value: Math.abs(difference.value) };
  const where = `${inBar(largest.differentialPressurePa)} and ${printRpm(largest.speedRevPerS)} r/min`;
  // Twice as many: each pair may differ either way.
  if (size.value > SMALLEST_DIFFERENCE && isBeyondChance(size, sources, 2 * pairs.length)) {
    return {
      read: 'sign',
      numbers,
      text: `At ${where} the pump delivers ${statedShare(size, sources)} ${isLess ? 'less' : 'more'} when the pressure is reached from above (hold ${largest.fromAboveHoldNumber}) than from below (hold ${largest.fromBelowHoldNumber}). Look for bushes, plates or vanes that stick, a relief valve that does not reseat, or drift.`,
    };
  }
  return {
    read: 'no sign',
    numbers,
    text: `Pressures reached from below and from above agree within ${percentWithin(size.value)} %, at ${where}.`,
  };
}
