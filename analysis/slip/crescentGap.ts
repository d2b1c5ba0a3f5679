/** A tip gap that is not the same all round, boiled down to two plane ones. */
export type CrescentGap = {
  /** Height of the even gap that leaks as much under pressure [m]. */
  readonly pressureHeightM: number;
  /** Height of the even gap that carries as much oil forward [m]. */
  readonly dragHeightM: number;
};

/** Strips of Simpson's rule over the arc; good to 1e-4 while the tightest place keeps a third of the mean gap. */
const STRIPS = 16;

/**
 * Tip gap of a gear that leans to the suction side by e in a bore it would clear by c: h(θ) = c − e cos θ, θ from the
 * suction direction; the sealing arc stands opposite the mesh, at right angles to the lean. Tips seal one after the
 * other and pass the same flow q, so with Σ over them q = [(U/2) Σ h⁻² − Δp/(12 µ L)]/Σ h⁻³ per breadth: the pressure
 * part sees (mean h⁻³)^(−1/3), the drag part (mean h⁻²)/(mean h⁻³).
 *
 * @param clearanceM - c, radial, > 0 [m]
 * @param leanM - e, zero or more [m]
 * @param sealingArcRad - angle of the casing that seals [rad]
 * @returns heights of the even gaps [m]; null if the gear touches the casing within the arc [-]
 *
 * Source: derived here from the one-dimensional Reynolds equation; no published source.
 *
 * @example crescentGap(4e-5, 0, 3.5)?.dragHeightM // 4e-5
 */
export function crescentGap(clearanceM: number, leanM: number, sealingArcRad: number): CrescentGap | null {
  const nearestCosine = sealingArcRad >= Math.PI ? 1 : Math.sin(sealingArcRad / 2);
  if (!(clearanceM - leanM * nearestCosine > 0)) return null;
  if (leanM === 0) return { pressureHeightM: clearanceM, dragHeightM: clearanceM };
  let inverseSquares = 0;
  let inverseCubes = 0;
  for (let index = 0; index <= STRIPS; index += 1) {
    const weight = index === 0 || index === STRIPS ? 1 : index % 2 === 1 ? 4 : 2;
    const angleRad = Math.PI / 2 + sealingArcRad * (index / STRIPS - 0.5);
    const inverse = 1 / (clearanceM - leanM * Math.cos(angleRad));
    const weightedSquare = weight * inverse * inverse;
    inverseSquares += weightedSquare;
    inverseCubes += weightedSquare * inverse;
  }
  return {
    pressureHeightM: Math.cbrt((3 * STRIPS) / inverseCubes),
    dragHeightM: inverseSquares / inverseCubes,
  };
}
