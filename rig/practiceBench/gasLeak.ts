/** The clearances of a dry pump as gas sees them. */
export type GasGap = {
  /** C in G = C (p_d² − p²). */
  readonly constantM3PerSPerPa: number;
  /** Entry loss: share that it adds to p_d² − p² at a laminar leak driven by 1e9 Pa². */
  readonly entryShare: number;
};

const ENTRY_REFERENCE_PA2 = 1e9;

/**
 * Gas that leaks back through the clearances: p_d² − p² = G/C + B G², laminar gap and quadratic entry in series.
 *
 * @param gap - constant C [m³/(s Pa)] and share of the entry [1]
 * @param deliveryPressurePa - absolute [Pa]
 * @param suctionPressurePa - absolute [Pa]
 * @returns G, pressure times volume that comes back in a second; negative if it leaks forwards [Pa m³/s]
 *
 * Source: isothermal laminar flow of a gas through a narrow gap, ṁ R T = b h³ (p_d² − p²)/(24 µ L).
 */
export function gasLeakPaM3PerS(gap: GasGap, deliveryPressurePa: number, suctionPressurePa: number): number {
  const drivePa2 = deliveryPressurePa ** 2 - suctionPressurePa ** 2;
  const size = Math.abs(drivePa2);
  const stretch = (1 + Math.sqrt(1 + (4 * gap.entryShare * size) / ENTRY_REFERENCE_PA2)) / 2;
  return (gap.constantM3PerSPerPa * drivePa2) / stretch;
}
