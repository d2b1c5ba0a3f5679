import type { Coefficients } from '../delivery/slipLaw.ts';
import { QUALITY, type Readings } from '../readings.ts';
import type { HoldState } from '../steady/holdState.ts';
import type { SourceTable, Uncertain } from '../uncertainty/source.ts';
import { type CheckRead, isBeyondChance, percentWithin } from './checkRead.ts';
import { lawShift } from './lawDeparture.ts';
import { inBar, isSameSetPoint, takenInOrder } from './setPoints.ts';
import { statedShare } from './statedShare.ts';

/** A stretch in which the shaft stood still [s]. */
export type Rest = { readonly startS: number; readonly endS: number };

/** Two holds of one set point; the second had the better chance to be free of air. */
type AirPair = {
  readonly holdNumber: number;
  readonly clearerHoldNumber: number;
  readonly how: 'after a rest' | 'with a flooded inlet';
  /** Flow per turn that the second has more, slip made alike, a share of V_i [1]: about the free air by volume. */
  readonly lost: Uncertain;
};

export type AirNumbers = { readonly pairs: readonly AirPair[]; readonly worst: AirPair };

/** Air needs time to rise out of the oil: a house limit, no source [s]. */
const LEAST_REST_S = 60;

/** The shaft turns from here up [rev/s]. */
const TURNING_REV_PER_S = 0.5;

/** Flooded against lifted: the suction pressures differ by this much or more, half a metre of oil [Pa]. */
const LEAST_SUCTION_STEP_PA = 4e3;

/** Less air than this is in every oil that moves: a house limit [1]. */
const SMALLEST_LOSS = 0.005;

/** A rest of a minute shows among so many readings, evenly taken, of a run as long as a day. */
const MOST_SPEEDS = 20_000;

/** Whether any value is one of a shaft at rest, good or not: most runs never stop, and are done with at once. */
function standsAnywhere(values: Float64Array): boolean {
  const stride = Math.max(1, Math.floor(values.length / MOST_SPEEDS));
  for (let index = 0; index < values.length; index += stride) {
    if (Math.abs(values[index] ?? Number.NaN) < TURNING_REV_PER_S) return true;
  }
  return false;
}

/**
 * The rests of a run: the shaft stands for a minute or longer.
 *
 * @param readings - of a run [n readings, oldest first]
 * @returns rests, oldest first; none where speed is not recorded [s]
 */
export function restsOf(readings: Readings): readonly Rest[] {
  const { speed } = readings.channels;
  if (speed === undefined || !standsAnywhere(speed.values)) return [];
  const rests: Rest[] = [];
  let startS: number | null = null;
  for (let index = 0; index < readings.elapsedS.length; index += 1) {
    const atS = readings.elapsedS[index] ?? Number.NaN;
    const isGood = speed.quality[index] === QUALITY.good;
    const stands = isGood && Math.abs(speed.values[index] ?? Number.NaN) < TURNING_REV_PER_S;
    if (stands) startS ??= atS;
    const isLast = index === readings.elapsedS.length - 1;
    if (startS !== null && (isLast || (isGood && !stands))) {
      if (atS - startS >= LEAST_REST_S) rests.push({ startS, endS: atS });
      startS = null;
    }
  }
  return rests;
}

function pairOf(
  before: HoldState,
  after: HoldState,
  rests: readonly Rest[],
  coefficients: Coefficients,
): AirPair | null {
  if (!isSameSetPoint(before, after)) return null;
  const suctionStepPa = after.suctionPressurePa.value - before.suctionPressurePa.value;
  const isRested = rests.some((rest) => rest.startS >= before.endS && rest.endS <= after.startS);
  if (Math.abs(suctionStepPa) >= LEAST_SUCTION_STEP_PA) {
    const [lifted, flooded] = suctionStepPa > 0 ? [before, after] : [after, before];
    const lost = lawShift(lifted, flooded, coefficients);
    return { holdNumber: lifted.number, clearerHoldNumber: flooded.number, how: 'with a flooded inlet', lost };
  }
  if (!isRested) return null;
  const lost = lawShift(before, after, coefficients);
  return { holdNumber: before.number, clearerHoldNumber: after.number, how: 'after a rest', lost };
}

/**
 * Is there air in the oil? The same set point before and after a rest of a minute or longer, or with flooded and with
 * lifted inlet: free air of x by volume costs about x of the flow, and slip does not mind rest or inlet. Flow per turn is
 * referred to the law, so that other oil or pressure is not taken for air. Only the one sign counts: more flow once the
 * oil had rested or the inlet was flooded.
 *
 * @param holds - of one run; those left out take no part [n holds]
 * @param rests - where the shaft stood, from {@link restsOf} [s]
 * @param coefficients - of the fitted law [m³/rev, m³, m², m³/Pa]
 * @param sources - every source that the holds are sensitive to [-]
 * @returns the pairs compared and the worst, or what is missing to tell [1]
 *
 * Source: derived here: with a share x of gas the swept volume takes in 1 − x of oil. Least loss that counts, 0.5 %: house limit.
 */
export function airCheck(
  holds: readonly HoldState[],
  rests: readonly Rest[],
  coefficients: Coefficients,
  sources: SourceTable,
): CheckRead<AirNumbers, 'NO_PAIR'> {
  const taken = takenInOrder(holds);
  const pairs = taken.flatMap((before, index) =>
    taken.slice(index + 1).flatMap((after) => pairOf(before, after, rests, coefficients) ?? []),
  );
  const worst = pairs.reduce<AirPair | null>(
    (most, pair) => (most === null || pair.lost.value > most.lost.value ? pair : most),
    null,
  );
  if (worst === null) {
    return {
      read: 'cannot tell',
      code: 'NO_PAIR',
      text: 'Whether there was air in the oil cannot be told: no set point was taken both before and after a rest, nor with flooded and with lifted inlet. Stop the pump for some minutes in mid-run and repeat the hold before the stop, or repeat a hold with the suction flooded.',
    };
  }
  const numbers = { pairs, worst };
  const lost = statedShare(worst.lost, sources);
  if (worst.lost.value > SMALLEST_LOSS && isBeyondChance(worst.lost, sources, pairs.length)) {
    return {
      read: 'sign',
      numbers,
      text: `Air in the oil: hold ${worst.clearerHoldNumber}, ${worst.how}, delivers ${lost} more than hold ${worst.holdNumber} at the same point. About as much of what the pump drew in was air. Look at suction joints, shaft seal, oil level and the return line; let the oil rest and repeat the run.`,
    };
  }
  return {
    read: 'no sign',
    numbers,
    text: `No sign of air: hold ${worst.clearerHoldNumber}, ${worst.how}, and hold ${worst.holdNumber} at ${inBar(taken.find(({ number }) => number === worst.holdNumber)?.differentialPressurePa.value ?? 0)} agree within ${percentWithin(worst.lost.value)} %.`,
  };
}
