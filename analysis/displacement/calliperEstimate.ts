import { type GearMesh, gearSweptVolume } from './gearMesh.ts';

/**
 * Short form for two equal external gears from three callipered lengths, V ≈ (π/2) b (d_a² − a²). For plausibility
 * only: it leaves out p_b²/12 and is always high, typically by 4 to 7 %.
 *
 * @param tipDiameterM - over the tips of one gear [m]
 * @param centreDistanceM - of the shafts [m]
 * @param faceWidthM - of the gears [m]
 * @returns estimate [m³/rev]
 *
 * Source: "Formula to calculate gear pump displacement", paperzz.com/doc/7823320.
 */
export function calliperEstimate(tipDiameterM: number, centreDistanceM: number, faceWidthM: number): number {
  return (Math.PI / 2) * faceWidthM * (tipDiameterM ** 2 - centreDistanceM ** 2);
}

/**
 * By how much the calliper short form overstates two given gears.
 *
 * @param mesh - equal external gears [m, rad]
 * @returns estimate over swept volume, less 1 [1]
 *
 * Source: for equal gears p_b²/12/(r_a² − r_w² − p_b²/12), derived here from gearSweptVolume.
 */
export function calliperExcess(mesh: GearMesh): number {
  return calliperEstimate(2 * mesh.driver.tipRadiusM, mesh.centreDistanceM, 1) / gearSweptVolume(mesh, 1) - 1;
}

/**
 * Textbook form for two equal external gears, V ≈ (π/4) b (d_a² − d_f²): half of the ring between tip and root circle
 * is space. For plausibility only: it is high, and counts what the mesh traps and takes back as pumped.
 *
 * @param tipDiameterM - over the tips of one gear [m]
 * @param rootDiameterM - at the bottom of its spaces [m]
 * @param faceWidthM - of the gears [m]
 * @returns estimate [m³/rev]
 *
 * Source: Esposito, Fluid Power with Applications, pumps (from memory).
 */
export function textbookEstimate(tipDiameterM: number, rootDiameterM: number, faceWidthM: number): number {
  return (Math.PI / 4) * faceWidthM * (tipDiameterM ** 2 - rootDiameterM ** 2);
}
