import type { PracticePlant } from './plant.ts';

/** The pump's own relief valve, from delivery back to suction. */
export type PumpRelief = {
  /** Flow through it a step later [m³/s]. */
  readonly advance: (gaugePa: number, stepS: number) => number;
};

/** Its body follows the pressure so quickly; tooth ripple does not move it: invented [s]. */
const LAG_S = 0.1;

/**
 * A relief valve that cracks, opens along a straight line and shuts lower than it cracked.
 *
 * @param relief - gauge pressures [Pa]; absent: never opens
 * @param fullFlowM3PerS - flow that it passes at cracking pressure and overshoot [m³/s]
 * @returns the valve, shut
 */
export function createPumpRelief(relief: PracticePlant['relief'], fullFlowM3PerS: number): PumpRelief {
  if (relief === undefined) return { advance: () => 0 };
  const { crackingPa, fullFlowOvershootPa, reseatPa } = relief;
  let feltPa = 0;
  let isOpen = false;
  return {
    advance(gaugePa, stepS) {
      feltPa += ((gaugePa - feltPa) * stepS) / LAG_S;
      if (feltPa >= crackingPa) isOpen = true;
      if (feltPa <= reseatPa) isOpen = false;
      return isOpen ? (fullFlowM3PerS * (feltPa - reseatPa)) / (crackingPa + fullFlowOvershootPa - reseatPa) : 0;
    },
  };
}
