import { STANDARD_GRAVITY_M_PER_S2 } from '../../units.ts';
import type { Course } from '../events/course.ts';
import { type PipeTop, pipeDropPa } from '../events/pipeTop.ts';

/** What a free column would have done under the suction that was measured. */
export type FreeColumn = {
  /** When it would have come to the pump; null: not within the watch. */
  readonly arrivesS: number | null;
  /**
   * Swept volume until the suction first stood at what the lift asks for, over the pipe's volume up to its top; null: it never
   * stood there. A free column must have been lifted before: about one or more.
   */
  readonly sweptShare: number | null;
};

/** Flow under which a pipe's drop is taken; laminar friction goes with it [m³/s]. */
const UNIT_FLOW_M3_PER_S = 1e-6;

/** Flow that a pressure drives through a full pipe: laminar part linear, velocity head quadratic [m³/s]. */
function drivenFlow(
  top: PipeTop,
  oil: { readonly densityKgPerM3: number; readonly dynamicViscosityPaS: number },
  drivePa: number,
): number {
  if (!(drivePa > 0)) return 0;
  const still = { ...oil, dynamicViscosityPaS: 0 };
  const quadratic = pipeDropPa(top, still, UNIT_FLOW_M3_PER_S) / UNIT_FLOW_M3_PER_S ** 2;
  const linear = pipeDropPa(top, oil, UNIT_FLOW_M3_PER_S) / UNIT_FLOW_M3_PER_S - quadratic * UNIT_FLOW_M3_PER_S;
  return (2 * drivePa) / (linear + Math.sqrt(linear ** 2 + 4 * quadratic * drivePa));
}

/**
 * Whether oil should have come: the column that the measured suction would have lifted through an open pipe, without inertia
 * and with the friction of a full pipe, so rather too slow than too fast.
 *
 * @param drawn - rest less suction, from the motor start on [s, Pa]
 * @param pipe - its top [SI], the oil [SI], and what the pump sweeps at each of the readings [m³/s]
 * @returns its arrival, and how much was swept before the suction stood at the lift [s, 1]
 *
 * Source: ρ g x + Δp(q) = p_atm − p, dw/dt = q; derived here.
 */
export function freeColumn(
  drawn: Course,
  pipe: {
    readonly top: PipeTop;
    readonly oil: { readonly densityKgPerM3: number; readonly dynamicViscosityPaS: number };
    readonly sweptM3PerS: readonly number[];
  },
): FreeColumn {
  const { top, oil, sweptM3PerS } = pipe;
  const weightPaPerM = oil.densityKgPerM3 * STANDARD_GRAVITY_M_PER_S2;
  const toTopM3 = top.volumeM3 - top.volumeBehindM3;
  let filledM3 = 0;
  let sweptM3 = 0;
  let arrivesS: number | null = null;
  let sweptShare: number | null = null;
  for (const [index, drawnPa] of drawn.values.entries()) {
    const timeS = drawn.timesS[index] ?? 0;
    const stepS = index === 0 ? 0 : timeS - (drawn.timesS[index - 1] ?? timeS);
    sweptM3 += stepS * (sweptM3PerS[index] ?? 0);
    if (drawnPa >= weightPaPerM * top.heightM) sweptShare ??= sweptM3 / toTopM3;
    const heightM = top.heightM * Math.min(1, filledM3 / toTopM3);
    filledM3 += stepS * drivenFlow(top, oil, drawnPa - weightPaPerM * heightM);
    if (filledM3 >= top.volumeM3) arrivesS ??= timeS;
  }
  return { arrivesS, sweptShare };
}
