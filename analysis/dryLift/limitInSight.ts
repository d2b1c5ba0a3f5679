/** A limit further down than so many times what is drawn would flatten the drawing [1]. */
const TIMES_DRAWN = 2;

/**
 * Whether the blank-off pressure lies near enough to a drawn suction to be drawn with it; else it is told in words.
 *
 * @param blankOffPa - absolute [Pa]
 * @param barometerPa - absolute [Pa]
 * @param lowestDrawnPa - lowest suction that is drawn, absolute [Pa]
 * @returns true: draw it [-]
 *
 * @example isLimitInSight(95_000, 101_325, 97_500) // true
 */
export function isLimitInSight(blankOffPa: number, barometerPa: number, lowestDrawnPa: number): boolean {
  return barometerPa - blankOffPa <= TIMES_DRAWN * (barometerPa - lowestDrawnPa);
}
