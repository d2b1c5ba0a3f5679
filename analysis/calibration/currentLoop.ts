import { QUALITY } from '../readings.ts';

/**
 * What a 4 to 20 mA loop says of its own transmitter: 3.8 to 20.5 mA is a measurement, 3.6 mA and below or 21.0 mA and above a
 * failure; between them the transmitter is past its measuring range and has not failed.
 *
 * @param currentMilliampere - loop current [mA]
 * @returns good, outOfRange or sensorFault [-]
 *
 * Source: NAMUR NE 43 (2003).
 *
 * @example currentLoopQuality(3.6) // 3: a broken wire, or a transmitter that reports its failure
 */
export function currentLoopQuality(
  currentMilliampere: number,
): typeof QUALITY.good | typeof QUALITY.outOfRange | typeof QUALITY.sensorFault {
  if (currentMilliampere <= 3.6 || currentMilliampere >= 21) return QUALITY.sensorFault;
  if (currentMilliampere < 3.8 || currentMilliampere > 20.5) return QUALITY.outOfRange;
  return QUALITY.good;
}
