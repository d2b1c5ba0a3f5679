import { integrateStiff } from '../../fitting/integrateStiff.ts';
import { STANDARD_GRAVITY_M_PER_S2 } from '../../units.ts';
import { columnHeight, type PipeTable, surfaceSegment } from './suctionPipe.ts';

/** A column without inertia or friction: p = p_atm − ρ g h(w). */
export type QuasiStaticColumn = {
  readonly pipe: PipeTable;
  readonly deadVolumeM3: number;
  readonly densityKgPerM3: number;
  readonly atmospherePa: number;
  readonly polytropicExponent: number;
  /** What the gas before the gears gains in a second, as pressure times volume [Pa m³/s]. */
  readonly gasGainPaM3PerS: (suctionPressurePa: number, elapsedS: number) => number;
};

/**
 * When oil reaches the flange if the column weighs but neither moves nor rubs: dw/dt = −k G/(V ρ g h′ + k p), from
 * V dp/dt = k (G + p dw/dt) with dp/dt = −ρ g h′ dw/dt, h′ the height gained per volume. Much cheaper than the whole column,
 * and right where pipes are wide, oil thin and pumps slow.
 *
 * @param column - pipe, gas and pressures [SI]
 * @param watchS - how long it is watched [s]
 * @param tolerance - of each step, relative [1]
 * @returns time from start to inlet full; null if it never gets there in that time [s]
 *
 * Source: isothermal mass balance and hydrostatics; derived here.
 */
export function quasiStaticRiseS(column: QuasiStaticColumn, watchS: number, tolerance = 1e-8): number | null {
  const { pipe, atmospherePa, deadVolumeM3, polytropicExponent: exponent } = column;
  const weightPaPerM = column.densityKgPerM3 * STANDARD_GRAVITY_M_PER_S2;
  const course = integrateStiff({
    slopes: (elapsedS, state, into) => {
      const filledM3 = state[0] ?? Number.NaN;
      const { risePerM, areaM2 } = surfaceSegment(pipe, filledM3);
      const pressurePa = atmospherePa - weightPaPerM * columnHeight(pipe, filledM3);
      const gasM3 = pipe.volumeM3 + deadVolumeM3 - filledM3;
      const stiffnessPa = (gasM3 * weightPaPerM * risePerM) / areaM2 + exponent * pressurePa;
      into[0] = (-exponent * column.gasGainPaM3PerS(pressurePa, elapsedS)) / stiffnessPa;
    },
    startTime: 0,
    startState: [0],
    scales: [pipe.volumeM3],
    endTime: watchS,
    stopWhen: (_, state) => (state[0] ?? 0) - pipe.volumeM3,
    tolerance,
  });
  return course.ending === 'stopped' ? (course.times[course.times.length - 1] ?? null) : null;
}
