/** The clearances of a dry pump as gas sees them. */
export type GasGap = {
  /** C in G = C (p_d² − p²). */
  readonly constantM3PerSPerPa: number;
  /** Entry loss: share that it adds to p_d² − p² at a laminar leak driven by 1e9 Pa². */
  readonly entryShare: number;
};

const ENTRY_REFERENCE_PA2 = 1e9;

/** Air of a workshop [kg/m³]. */
const AIR_KG_PER_M3 = 1.2;
/** √Δp is straightened below this, so that a hole does not swing on its own gas [Pa]. */
const STRAIGHT_BELOW_PA = 100;

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

/**
 * Air through a hole: ṁ = C_d A √(2 ρ Δp) with the density upstream, times R T.
 *
 * @param areaM2 - C_d A [m²]
 * @param upstreamPa - absolute [Pa]
 * @param downstreamPa - absolute [Pa]
 * @returns pressure times volume that comes in, in a second; none backwards [Pa m³/s]
 *
 * Source: Bernoulli for small pressure differences, where air does not notice that it can be compressed.
 */
export function holeLeakPaM3PerS(areaM2: number, upstreamPa: number, downstreamPa: number): number {
  const differencePa = Math.max(0, upstreamPa - downstreamPa);
  const rootPa =
    differencePa < STRAIGHT_BELOW_PA ? differencePa / Math.sqrt(STRAIGHT_BELOW_PA) : Math.sqrt(differencePa);
  return areaM2 * upstreamPa * Math.sqrt(2 / AIR_KG_PER_M3) * rootPa;
}
