import { no, type Outcome, yes } from '../outcome.ts';
import type { LobeGeometry } from '../records/geometry/lobe.ts';
import { type GeometryRefusal, lengthInMm, type SweptVolume, sweptVolumeFrom } from './geometryResult.ts';

/** Two equal rotors whose lobes are cycloids on a common pitch circle. */
export type LobeRotors = {
  readonly lobeCount: number;
  readonly pitchRadiusM: number;
  readonly tipRadiusM: number;
  readonly widthM: number;
};

/** How far tips may stand over the cycloid's own radius, and how far under: house limits [1]. */
const TALLEST_TIP = 1.005;
const SHORTEST_TIP = 0.97;

/** Half-width of the spread by profiles that are not quite cycloids, relative; common practice, no source [1]. */
const PROFILE_HALF_WIDTH = 0.01;

/**
 * Area of a cycloidal rotor, A = π R² (1 + 1/(2N²)): epicycloid lobes and hypocycloid hollows by a circle of R/(2N).
 *
 * @param rotors - pitch radius R [m], lobes N [1]
 * @returns cross-section of one rotor [m²]
 *
 * Source: epicycloid and hypocycloid geometry, derived here.
 */
export function lobeRotorArea(rotors: LobeRotors): number {
  const { lobeCount, pitchRadiusM } = rotors;
  return Math.PI * pitchRadiusM ** 2 * (1 + 1 / (2 * lobeCount ** 2));
}

/**
 * Swept volume of two cycloidal rotors: each turns the oil between itself and its bore over once, V_g = 2 b (π r_a² − A);
 * with r_a = R (1 + 1/N) this is 2π b R² (2/N + 1/(2N²)).
 *
 * @param rotors - lengths [m], lobes [1]
 * @returns volume displaced in a turn of the shaft [m³/rev]
 *
 * Source: derived here.
 *
 * @example lobeVolume({ lobeCount: 2, pitchRadiusM: 2, tipRadiusM: 3, widthM: 1 / Math.PI }) // 9
 */
export function lobeVolume(rotors: LobeRotors): number {
  return 2 * rotors.widthM * (Math.PI * rotors.tipRadiusM ** 2 - lobeRotorArea(rotors));
}

/**
 * Ideal flow ripple of two cycloidal rotors. The contact lies on a rolling circle at d = (R/N) |sin Nφ| from the pitch
 * point, and the flow is b ω (r_a² − R² − d²): δ = (R²/N²)/(r_a² − R² − R²/(2N²)); at full height 2/(4N + 1).
 *
 * @param rotors - lengths [m], lobes [1]
 * @returns (q_max − q_min)/q_mean [1]
 *
 * Source: derived here, by the control volume of gearSweptVolume.
 */
export function lobeFlowRipple(rotors: LobeRotors): number {
  const { lobeCount, pitchRadiusM, tipRadiusM } = rotors;
  const depthM2 = (pitchRadiusM / lobeCount) ** 2;
  return depthM2 / (tipRadiusM ** 2 - pitchRadiusM ** 2 - depthM2 / 2);
}

/**
 * The rotors of a lobe pump, where they are cycloids.
 *
 * @param geometry - strip measurements of the pump record [m]
 * @returns the lengths that the formulas use [m]; or why these are no cycloidal rotors [-]
 */
export function lobeRotors(geometry: LobeGeometry): Outcome<LobeRotors, GeometryRefusal> {
  const { lobeCount } = geometry;
  const rotors: LobeRotors = {
    lobeCount,
    pitchRadiusM: geometry.centreDistanceM.value / 2,
    tipRadiusM: geometry.tipDiameterM.value / 2,
    widthM: geometry.widthM.value,
  };
  const cycloidM = rotors.pitchRadiusM * (1 + 1 / lobeCount);
  if (rotors.tipRadiusM > TALLEST_TIP * cycloidM) {
    return no({
      code: 'TIP_INTERFERENCE',
      quantity: 'tip diameter [m]',
      value: 2 * rotors.tipRadiusM,
      limit: 2 * TALLEST_TIP * cycloidM,
      text: `with ${lobeCount} lobes on a centre distance of ${lengthInMm(2 * rotors.pitchRadiusM)} a tip diameter of ${lengthInMm(2 * rotors.tipRadiusM)} runs into the other rotor's hollow, which ends at ${lengthInMm(2 * cycloidM)}`,
    });
  }
  if (rotors.tipRadiusM < SHORTEST_TIP * cycloidM) {
    return no({
      code: 'PROFILE_NOT_NOMINAL',
      quantity: 'tip diameter [m]',
      value: 2 * rotors.tipRadiusM,
      limit: 2 * SHORTEST_TIP * cycloidM,
      text: `a tip diameter of ${lengthInMm(2 * rotors.tipRadiusM)} is far below the ${lengthInMm(2 * cycloidM)} of cycloidal rotors: these have another profile; turn the pump by hand or give the swept volume 'as stated'`,
    });
  }
  return yes(rotors);
}

/**
 * Swept volume of a lobe pump from its own measurements.
 *
 * @param geometry - strip measurements of the pump record [m]
 * @returns V_g with sensitivities to `geometry.*` sources [m³/rev], ripple [1]; or why it is not computed [-]
 *
 * Source: as lobeVolume; JCGM 100:2008, 5.1 for the uncertainty.
 */
export function lobeSweptVolume(geometry: LobeGeometry): Outcome<SweptVolume, GeometryRefusal> {
  const found = lobeRotors(geometry);
  if (!found.ok) return found;
  const { pitchRadiusM, tipRadiusM, widthM, lobeCount } = found.value;
  const value = lobeVolume(found.value);
  return yes(
    sweptVolumeFrom(
      value,
      [
        {
          id: 'tipDiameter',
          label: 'tip diameter of the rotors',
          measured: geometry.tipDiameterM,
          derivative: 2 * Math.PI * widthM * tipRadiusM,
        },
        {
          id: 'centreDistance',
          label: 'centre distance',
          measured: geometry.centreDistanceM,
          derivative: -2 * Math.PI * widthM * pitchRadiusM * (1 + 1 / (2 * lobeCount ** 2)),
        },
        { id: 'width', label: 'width of the rotors', measured: geometry.widthM, derivative: value / widthM },
      ],
      { label: 'profile taken as cycloidal: spread of the formula', halfWidth: PROFILE_HALF_WIDTH },
      { flowRipple: lobeFlowRipple(found.value), basis: `two cycloidal rotors of ${lobeCount} lobes, measured apart` },
    ),
  );
}
