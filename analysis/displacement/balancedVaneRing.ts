import { no, type Outcome, yes } from '../outcome.ts';
import type { BalancedVaneRingGeometry } from '../records/geometry/balancedVaneRing.ts';
import { type GeometryRefusal, lengthInMm, type SweptVolume, sweptVolumeFrom } from './geometryResult.ts';
import { refuseVanes } from './refuseVanes.ts';

/**
 * Half-width of the formula's own spread: it takes the lean at the rim for the lean everywhere, and arcs of the cam ring
 * that are a vane pitch long. Common practice, no source; the lean alone is within it up to 0.5 rad [1].
 */
const LEAN_AND_ARCS_HALF_WIDTH = 0.005;

/** The lengths that make the volume; a shorthand for the formula below [m, rad]. */
export type CamRing = {
  readonly majorRadiusM: number;
  readonly minorRadiusM: number;
  readonly ringWidthM: number;
  readonly vaneCount: number;
  readonly vaneThicknessM: number;
  readonly vaneLeanRad: number;
};

/**
 * Swept volume of a balanced vane pump whose under-vane spaces do not deliver,
 * V = 2 b (π (R² − r²) − (R − r) z t/cos θ); with t = 0 that of a pump whose under-vane spaces do.
 *
 * @param ring - lengths and lean; arcs of R and r at least a vane pitch long [m, rad]
 * @returns volume displaced in a turn of the shaft [m³/rev]
 *
 * Source: standard hydraulics texts, from memory.
 */
export function camRingSweptVolume(ring: CamRing): number {
  const { majorRadiusM, minorRadiusM, ringWidthM, vaneCount, vaneThicknessM, vaneLeanRad } = ring;
  const vanesM2 = ((majorRadiusM - minorRadiusM) * vaneCount * vaneThicknessM) / Math.cos(vaneLeanRad);
  return 2 * ringWidthM * (Math.PI * (majorRadiusM ** 2 - minorRadiusM ** 2) - vanesM2);
}

/**
 * Swept volume of a balanced vane pump from its own measurements.
 *
 * @param geometry - strip measurements of the pump record [m, rad]
 * @returns V_g with sensitivities to `geometry.*` sources [m³/rev], or why not [-]; ideal ripple 0 where the under-vane
 *   spaces deliver, else null: it hangs on the shape of the cam between its arcs, which nobody measured [1]
 *
 * Source: as camRingSweptVolume; JCGM 100:2008, 5.1 for the uncertainty.
 */
export function balancedVaneRingSweptVolume(geometry: BalancedVaneRingGeometry): Outcome<SweptVolume, GeometryRefusal> {
  const { majorDiameterM, minorDiameterM, rotorDiameterM, ringWidthM, vaneThicknessM, vaneCount } = geometry;
  if (!(majorDiameterM.value > minorDiameterM.value)) {
    return no({
      code: 'RING_WITHOUT_LIFT',
      quantity: 'major diameter of the cam ring [m]',
      value: majorDiameterM.value,
      limit: minorDiameterM.value,
      text: `the major diameter of ${lengthInMm(majorDiameterM.value)} is not larger than the minor one of ${lengthInMm(minorDiameterM.value)}: the vanes would not move`,
    });
  }
  const refusal = refuseVanes({
    narrowestRadiusM: minorDiameterM.value / 2,
    rotorDiameterM: rotorDiameterM.value,
    vaneThicknessM: vaneThicknessM.value,
    vaneCount,
  });
  if (refusal !== null) return no(refusal);

  const ring: CamRing = {
    majorRadiusM: majorDiameterM.value / 2,
    minorRadiusM: minorDiameterM.value / 2,
    ringWidthM: ringWidthM.value,
    vaneCount,
    vaneThicknessM: geometry.underVanesDeliver ? 0 : vaneThicknessM.value,
    vaneLeanRad: geometry.vaneLeanRad,
  };
  const value = camRingSweptVolume(ring);
  const vanesAsideM = (vaneCount * ring.vaneThicknessM) / Math.cos(ring.vaneLeanRad);
  const perThicknessM2 = geometry.underVanesDeliver
    ? 0
    : (-2 * ring.ringWidthM * (ring.majorRadiusM - ring.minorRadiusM) * vaneCount) / Math.cos(ring.vaneLeanRad);
  return yes(
    sweptVolumeFrom(
      value,
      [
        {
          id: 'majorDiameter',
          label: 'major diameter of the cam ring',
          measured: majorDiameterM,
          derivative: ring.ringWidthM * (2 * Math.PI * ring.majorRadiusM - vanesAsideM),
        },
        {
          id: 'minorDiameter',
          label: 'minor diameter of the cam ring',
          measured: minorDiameterM,
          derivative: -ring.ringWidthM * (2 * Math.PI * ring.minorRadiusM - vanesAsideM),
        },
        { id: 'ringWidth', label: 'width of the ring', measured: ringWidthM, derivative: value / ring.ringWidthM },
        { id: 'vaneThickness', label: 'thickness of the vanes', measured: vaneThicknessM, derivative: perThicknessM2 },
      ],
      {
        label: 'lean of the vanes and arcs of the cam ring: spread of the formula',
        halfWidth: LEAN_AND_ARCS_HALF_WIDTH,
      },
      {
        flowRipple: geometry.underVanesDeliver ? 0 : null,
        basis: `${vaneCount} vanes in a balanced cam ring, measured apart; spaces under the vanes ${geometry.underVanesDeliver ? 'deliver too' : 'do not deliver'}`,
      },
    ),
  );
}
