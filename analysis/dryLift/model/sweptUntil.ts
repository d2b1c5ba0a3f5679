import type { DryRunning } from './dryPump.ts';

/** Speed is added up in steps of this [s]. */
const STEP_S = 0.01;

/**
 * When the pump has swept a volume from an instant on, ∫ V_i n dt, by the trapezium rule.
 *
 * @param running - capacity and speed [m³/rev, rev/s]
 * @param fromS - instant [s]
 * @param volumeM3 - volume to sweep, zero or more [m³]
 * @param untilS - how long it is watched [s]
 * @returns the instant; null if it is not swept by then [s]
 */
export function sweptUntil(running: DryRunning, fromS: number, volumeM3: number, untilS: number): number | null {
  const sweptM3PerS = (atS: number): number => running.pump.capacityM3PerRev * running.speedRevPerS(atS);
  let leftM3 = volumeM3;
  let beforeM3PerS = sweptM3PerS(fromS);
  for (let atS = fromS; atS < untilS; atS += STEP_S) {
    const afterM3PerS = sweptM3PerS(atS + STEP_S);
    const stepM3 = ((beforeM3PerS + afterM3PerS) / 2) * STEP_S;
    if (stepM3 >= leftM3) return leftM3 === 0 ? atS : atS + (leftM3 / stepM3) * STEP_S;
    leftM3 -= stepM3;
    beforeM3PerS = afterM3PerS;
  }
  return null;
}
