/** Below this the flow through an opening turns laminar and its root law is rounded off [Pa]. */
const ROUNDING_PA = 20;

/** √|x| with the sign of x, rounded off near zero so that its slope stays finite: x [Pa] to [Pa^½]. */
export function signedRoot(x: number): number {
  return x / (x * x + ROUNDING_PA * ROUNDING_PA) ** 0.25;
}

/** Slope of {@link signedRoot} [Pa^-½]. */
export function signedRootSlope(x: number): number {
  const square = x * x + ROUNDING_PA * ROUNDING_PA;
  return (1 - (0.5 * x * x) / square) / square ** 0.25;
}
