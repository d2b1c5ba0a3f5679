/** Below this the laminar law holds and these do not [1]. */
const LEAST_REYNOLDS_NUMBER = 2300;

/** Newton's steps double the digits: four or five do, the rest is a guard. */
const MOST_STEPS = 50;

function requireReynolds(reynoldsNumber: number, relativeRoughness: number): void {
  if (!(Number.isFinite(reynoldsNumber) && reynoldsNumber >= LEAST_REYNOLDS_NUMBER)) {
    throw new RangeError(`reynoldsNumber: ${reynoldsNumber}, expected ${LEAST_REYNOLDS_NUMBER} or more`);
  }
  if (!(relativeRoughness >= 0 && relativeRoughness <= 0.05)) {
    throw new RangeError(`relativeRoughness: ${relativeRoughness}, expected 0 to 0.05`);
  }
}

/**
 * Darcy friction factor after Haaland, 1/√f = −1.8 log₁₀((ε/3.7)^1.11 + 6.9/Re): within 2 % of Colebrook, and here only
 * where its iteration starts.
 *
 * @param reynoldsNumber - 2300 or more [1]
 * @param relativeRoughness - roughness over bore, 0 to 0.05 [1]
 * @returns Darcy friction factor f [1]
 * @throws RangeError if an input lies outside its range
 *
 * Source: Haaland (1983), ASME J. Fluids Eng. 105, 89-90.
 */
export function haalandFrictionFactor(reynoldsNumber: number, relativeRoughness: number): number {
  requireReynolds(reynoldsNumber, relativeRoughness);
  return (-1.8 * Math.log10((relativeRoughness / 3.7) ** 1.11 + 6.9 / reynoldsNumber)) ** -2;
}

/**
 * Darcy friction factor of turbulent pipe flow after Colebrook, 1/√f = −2 log₁₀(ε/3.7 + 2.51/(Re √f)), by Newton's method
 * in 1/√f to double precision.
 *
 * @param reynoldsNumber - turbulent, 2300 or more; below 4000 the flow may be laminar still [1]
 * @param relativeRoughness - roughness over bore, 0 to 0.05 [1]
 * @returns Darcy friction factor f [1]
 * @throws RangeError if an input lies outside its range
 *
 * Source: Colebrook (1939), J. Inst. Civil Engineers 11, 133-156.
 */
export function colebrookFrictionFactor(reynoldsNumber: number, relativeRoughness: number): number {
  requireReynolds(reynoldsNumber, relativeRoughness);
  const rough = relativeRoughness / 3.7;
  const smooth = 2.51 / reynoldsNumber;
  let x = 1 / Math.sqrt(haalandFrictionFactor(reynoldsNumber, relativeRoughness));
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const argument = rough + smooth * x;
    const miss = x + 2 * Math.log10(argument);
    const next = x - miss / (1 + (2 * smooth) / (argument * Math.LN10));
    if (Math.abs(next - x) <= 4 * Number.EPSILON * x) return next ** -2;
    x = next;
  }
  throw new RangeError(`reynoldsNumber: no friction factor found for ${reynoldsNumber} and ${relativeRoughness}`);
}
