import { no, type Outcome, yes } from '../outcome.ts';
import type { VaneRingGeometry } from '../records/geometry/vaneRing.ts';
import { type GeometryRefusal, type SweptVolume, sweptVolumeFrom } from './geometryResult.ts';
import { refuseVanes } from './refuseVanes.ts';

/**
 * Half-width of the formula's own spread: ports that close ε off the centre of the land take cos ε of the volume, and
 * 0.5 % is ε = 5.7°. Common practice, no source [1].
 */
const PORT_TIMING_HALF_WIDTH = 0.005;

/** Places of a vane in its sealing land at which the ideal flow is computed [1]. */
const RIPPLE_STEPS = 720;

/** A circular ring around a rotor out of its centre; a shorthand for the formulas below [m]. */
export type CircularRing = {
  readonly ringRadiusM: number;
  readonly eccentricityM: number;
  readonly ringWidthM: number;
};

/**
 * Distance of the ring from the rotor's axis, ρ(t) = e cos t + √(R_c² − e² sin² t).
 *
 * @param ring - radius and eccentricity, the eccentricity below the radius [m]
 * @param angleRad - t, from the direction of the widest gap [rad]
 * @returns how far a vane reaches out at that angle [m]
 *
 * Source: circle seen from a point inside it.
 */
export function ringReach(ring: CircularRing, angleRad: number): number {
  const { ringRadiusM, eccentricityM } = ring;
  const acrossM = eccentricityM * Math.sin(angleRad);
  return eccentricityM * Math.cos(angleRad) + Math.sqrt(ringRadiusM ** 2 - acrossM ** 2);
}

/**
 * Swept volume of a circular ring with endlessly many thin vanes, V = 4π b e R_c = 2π b e D_c: the limit of many vanes.
 * The textbook form (π/2)(D_c + D_r) e b is the crescent between rotor and ring at one instant, not what a turn passes:
 * it is about half of this, and is used nowhere here.
 *
 * @param ring - radius, eccentricity and width [m]
 * @returns volume displaced in a turn of the shaft [m³/rev]
 *
 * Source: hydraulic trainers' texts, from memory.
 *
 * @example thinVaneSweptVolume({ ringRadiusM: 0.5, eccentricityM: 0.25, ringWidthM: 2 / Math.PI }) // 1
 */
export function thinVaneSweptVolume(ring: CircularRing): number {
  return 4 * Math.PI * ring.ringWidthM * ring.eccentricityM * ring.ringRadiusM;
}

/**
 * Swept volume of a circular ring with z thin vanes: z chambers, each shut off while it stands across the widest gap,
 * V = 2 z e b ∫ cos t √(R_c² − e² sin² t) dt over −π/z … π/z = 2 z b (u √(R_c² − u²) + R_c² arcsin(u/R_c)), u = e sin(π/z).
 *
 * @param ring - radius, eccentricity and width [m]
 * @param vaneCount - z, 2 or more [1]
 * @returns volume displaced in a turn of the shaft [m³/rev]
 *
 * Source: the chamber's largest area less its smallest, derived here; the integral from memory of texts on vane pumps.
 */
export function countedVaneSweptVolume(ring: CircularRing, vaneCount: number): number {
  const { ringRadiusM, eccentricityM, ringWidthM } = ring;
  const reachM = eccentricityM * Math.sin(Math.PI / vaneCount);
  const acrossM = Math.sqrt(ringRadiusM ** 2 - reachM ** 2);
  return 2 * vaneCount * ringWidthM * (reachM * acrossM + ringRadiusM ** 2 * Math.asin(reachM / ringRadiusM));
}

/**
 * Ideal flow ripple of z thin vanes: the vane in the wide land sends b ω ρ²/2 forward, the one in the narrow land brings
 * as much of its own back; over −π/z … π/z. With an odd count the narrow land's vane is half a pitch behind.
 *
 * @param ring - radius, eccentricity and width [m]
 * @param vaneCount - z, 2 or more [1]
 * @returns (max − min)/mean; even counts pulse z times a turn, odd ones 2 z times [1]
 *
 * Source: derived here from the reach of the vanes; no published source.
 */
export function vaneFlowRipple(ring: CircularRing, vaneCount: number): number {
  const halfPitchRad = Math.PI / vaneCount;
  let largestM2 = Number.NEGATIVE_INFINITY;
  let smallestM2 = Number.POSITIVE_INFINITY;
  for (let step = 0; step <= RIPPLE_STEPS; step += 1) {
    const wideRad = (halfPitchRad * step) / RIPPLE_STEPS;
    const narrowRad = vaneCount % 2 === 0 ? wideRad : wideRad - halfPitchRad;
    const passedM2 = ringReach(ring, wideRad) ** 2 - ringReach(ring, Math.PI + narrowRad) ** 2;
    largestM2 = Math.max(largestM2, passedM2);
    smallestM2 = Math.min(smallestM2, passedM2);
  }
  const meanM2 = countedVaneSweptVolume(ring, vaneCount) / (Math.PI * ring.ringWidthM);
  return (largestM2 - smallestM2) / meanM2;
}

/**
 * Swept volume of a single vane pump from its own measurements. Where the spaces under the vanes do not deliver, each
 * vane takes with it what it draws in between the edges of its chamber: V = V_thin − 2 e z t b cos(π/z).
 *
 * @param geometry - strip measurements of the pump record [m]
 * @returns V_g with sensitivities to `geometry.*` sources [m³/rev], ripple of thin vanes [1]; or why not [-]
 *
 * Source: as countedVaneSweptVolume; vane term derived here; JCGM 100:2008, 5.1 for the uncertainty.
 */
export function vaneRingSweptVolume(geometry: VaneRingGeometry): Outcome<SweptVolume, GeometryRefusal> {
  const { ringDiameterM, rotorDiameterM, eccentricityM, ringWidthM, vaneThicknessM, vaneCount } = geometry;
  const ring: CircularRing = {
    ringRadiusM: ringDiameterM.value / 2,
    eccentricityM: eccentricityM.value,
    ringWidthM: ringWidthM.value,
  };
  const refusal = refuseVanes({
    narrowestRadiusM: ring.ringRadiusM - ring.eccentricityM,
    rotorDiameterM: rotorDiameterM.value,
    vaneThicknessM: vaneThicknessM.value,
    vaneCount,
  });
  if (refusal !== null) return no(refusal);

  const takenByVanes = geometry.underVanesDeliver ? 0 : 2 * vaneCount * Math.cos(Math.PI / vaneCount);
  const value =
    countedVaneSweptVolume(ring, vaneCount) -
    takenByVanes * eccentricityM.value * vaneThicknessM.value * ringWidthM.value;
  const sine = Math.sin(Math.PI / vaneCount);
  const reachM = ring.eccentricityM * sine;
  const acrossM = Math.sqrt(ring.ringRadiusM ** 2 - reachM ** 2);
  const perWidthM = 2 * vaneCount * ring.ringWidthM;
  return yes(
    sweptVolumeFrom(
      value,
      [
        {
          id: 'ringDiameter',
          label: 'bore of the ring',
          measured: ringDiameterM,
          derivative: perWidthM * ring.ringRadiusM * Math.asin(reachM / ring.ringRadiusM),
        },
        {
          id: 'eccentricity',
          label: 'eccentricity of the rotor',
          measured: eccentricityM,
          derivative: 2 * perWidthM * acrossM * sine - takenByVanes * vaneThicknessM.value * ringWidthM.value,
        },
        { id: 'ringWidth', label: 'width of the ring', measured: ringWidthM, derivative: value / ring.ringWidthM },
        {
          id: 'vaneThickness',
          label: 'thickness of the vanes',
          measured: vaneThicknessM,
          derivative: -takenByVanes * eccentricityM.value * ringWidthM.value,
        },
      ],
      { label: 'timing of the ports: spread of the formula', halfWidth: PORT_TIMING_HALF_WIDTH },
      {
        flowRipple: vaneFlowRipple(ring, vaneCount),
        basis: `${vaneCount} vanes in a circular ring, measured apart; spaces under the vanes ${geometry.underVanesDeliver ? 'deliver too' : 'do not deliver'}`,
      },
    ),
  );
}
