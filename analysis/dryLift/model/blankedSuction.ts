import { integrateOnGrid } from '../../fitting/integrateOnGrid.ts';
import { integrateStiff, type StiffCourse } from '../../fitting/integrateStiff.ts';
import type { Slopes } from '../../fitting/rosenbrockStep.ts';
import { type DryRunning, gasGain, requireRunning } from './dryPump.ts';
import type { BlankedStart } from './dryStart.ts';

function requireBlanked(start: BlankedStart): void {
  requireRunning(start);
  if (!(start.closedVolumeM3 > 0)) {
    throw new RangeError(`closedVolumeM3: ${start.closedVolumeM3} is not a number above zero`);
  }
}

function blankedSlopes(start: BlankedStart): Slopes {
  return (elapsedS, state, into) => {
    const gainPaM3PerS = gasGain(start, start.speedRevPerS(elapsedS), state[0] ?? Number.NaN, elapsedS);
    into[0] = (start.polytropicExponent * gainPaM3PerS) / start.closedVolumeM3;
  };
}

/**
 * A start with the suction blanked off: V_c dp/dt = k G(p, t), from the atmosphere down to where the pump can draw no lower.
 *
 * @param start - closed volume, pump, speed, pressures [SI]
 * @param watchS - how long it is watched [s]
 * @param tolerance - of each step, relative [1]
 * @returns the pressure's course; its only component is absolute pressure [s, Pa]
 * @throws RangeError if the start cannot be, or if no step is accurate enough
 *
 * Source: mass balance of the gas; derived here.
 */
export function simulateBlanked(start: BlankedStart, watchS: number, tolerance = 1e-6): StiffCourse {
  requireBlanked(start);
  const course = integrateStiff({
    slopes: blankedSlopes(start),
    startTime: 0,
    startState: [start.atmospherePa],
    scales: [start.atmospherePa],
    endTime: watchS,
    stopWhen: null,
    tolerance,
  });
  if (course.ending === 'step too small') throw new RangeError('start: no step is accurate enough for its numbers');
  return course;
}

/**
 * The same start over given steps: smooth in every number of the start.
 *
 * @param start - closed volume, pump, speed, pressures [SI]
 * @param timesS - steps since the motor start, rising [n, s]
 * @returns the pressure's course; its only component is absolute pressure [s, Pa]
 * @throws RangeError if the start cannot be
 *
 * Source: as simulateBlanked.
 */
export function blankedOnGrid(start: BlankedStart, timesS: readonly number[]): StiffCourse {
  requireBlanked(start);
  return integrateOnGrid(blankedSlopes(start), [start.atmospherePa], [start.atmospherePa], timesS, null);
}

const MOST_HALVINGS = 200;

/**
 * Blank-off pressure: where the gas taken equals the gas that comes back, p V_i n = leak-back + κ V_i n (p_d − p) + shaft
 * leak. Long after the start: a gap that changes counts as changed. Without entry loss, carry-over and shaft leak
 * p = [−Q + √(Q² + 4 C² p_d²)]/(2 C).
 *
 * @param running - pump and surroundings [SI]
 * @param speedRevPerS - shaft speed, > 0 [rev/s]
 * @returns absolute pressure that a blanked suction comes to rest at [Pa]
 * @throws RangeError if the speed is not above zero
 *
 * Source: isothermal laminar gap flow; derived here.
 */
export function blankOffPressure(running: DryRunning, speedRevPerS: number): number {
  requireRunning(running);
  if (!(Number.isFinite(speedRevPerS) && speedRevPerS > 0)) {
    throw new RangeError(`speedRevPerS: ${speedRevPerS} is not a number above zero`);
  }
  const gain = (pa: number): number => gasGain(running, speedRevPerS, pa, Number.POSITIVE_INFINITY);
  // The gain falls with the pressure: one root, found by halving, which nothing can upset.
  let [low, high] = [0, Math.max(running.deliveryPressurePa, running.atmospherePa)];
  for (let step = 0; step < MOST_HALVINGS; step += 1) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (gain(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * The gap constant with which a blanked suction comes to rest at a pressure: the inverse of {@link blankOffPressure} in C,
 * C = G/(D − B G²), with G what the clearances may bring back and D = p_d² − p².
 *
 * @param running - pump and surroundings; its own gap constant does not count [SI]
 * @param speedRevPerS - shaft speed, > 0 [rev/s]
 * @param restPa - absolute pressure, below the delivery's [Pa]
 * @returns C; null where carry-over, shaft and entry alone forbid that pressure [m³/(s Pa)]
 */
export function gapConstantFor(running: DryRunning, speedRevPerS: number, restPa: number): number | null {
  const tight = { ...running, pump: { ...running.pump, gapConstantM3PerSPerPa: 0 } };
  const backPaM3PerS = -gasGain(tight, speedRevPerS, restPa, Number.POSITIVE_INFINITY);
  const drivePa2 = running.deliveryPressurePa ** 2 - restPa ** 2;
  const left = drivePa2 - running.pump.entryLossS2PerM6 * backPaM3PerS ** 2;
  return backPaM3PerS > 0 && left > 0 ? backPaM3PerS / left : null;
}
