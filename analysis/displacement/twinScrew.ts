import { no, type Outcome, yes } from '../outcome.ts';
import type { TwinScrewGeometry } from '../records/geometry/twinScrew.ts';
import { type GeometryRefusal, lengthInMm, type SweptVolume, sweptVolumeFrom } from './geometryResult.ts';

/** Strips of Simpson's rule in each direction; the integrand is smooth, 16 give nine digits [1]. */
const STRIPS = 16;

/** The cross-section of two equal screws; a shorthand for the formulas below [m]. */
export type ScrewPair = {
  readonly startCount: number;
  readonly outerRadiusM: number;
  readonly rootRadiusM: number;
  readonly centreDistanceM: number;
};

/** Half the angle at which a screw sees the overlap of the bores, arccos(a/(2R)) [rad]. */
function lensAngle({ outerRadiusM, centreDistanceM }: ScrewPair): number {
  return Math.acos(centreDistanceM / (2 * outerRadiusM));
}

/**
 * Area common to the two bores, L = R² (2α − sin 2α) = D² (α/2 − sin 2α/4), cos α = a/D; at the nominal centre distance
 * cos α = (D + d)/(2 D). A form with sin 2α/2, as a text on fluid power prints it, is a misprint: it makes L negative.
 *
 * @param pair - outer radius and centre distance, the distance below the diameter [m]
 * @returns area of the lens [m²]
 *
 * Source: lens of two equal circles.
 */
export function boreOverlap(pair: ScrewPair): number {
  const angleRad = lensAngle(pair);
  return pair.outerRadiusM ** 2 * (2 * angleRad - Math.sin(2 * angleRad));
}

/**
 * Open area of the cross-section, both bores less both screws with land as wide as groove: A = (π/4)(D² − d²) − L.
 *
 * @param pair - radii and centre distance [m]
 * @returns area that the oil fills, whatever the shaft angle [m²]
 *
 * Source: derived here: each screw fills half of its annulus.
 */
export function screwPairOpenArea(pair: ScrewPair): number {
  return Math.PI * (pair.outerRadiusM ** 2 - pair.rootRadiusM ** 2) - boreOverlap(pair);
}

/** Simpson's rule with STRIPS strips. */
function integral(f: (x: number) => number, from: number, to: number): number {
  const step = (to - from) / STRIPS;
  let sum = f(from) + f(to);
  for (let index = 1; index < STRIPS; index += 1) sum += (index % 2 === 1 ? 4 : 2) * f(from + index * step);
  return (sum * step) / 3;
}

/**
 * How much two rectangular threads stand in each other, as an area of the cross-section averaged over a turn (a turn and
 * a lead are the same here). A point in the overlap of the bores lies at α₁ from the one axis and α₂ from the other; both
 * lands cover it for n |α₁ − α₂|/(2π) of a turn, so the mean is ∫ n |α₁ − α₂|/(2π) dA over the lens. At least so much
 * must be cut from the flanks; the oil space grows by it.
 *
 * @param pair - radii, centre distance and starts [m, 1]
 * @returns mean area of the interference [m²]
 *
 * Source: derived here; no published source.
 */
export function threadInterference(pair: ScrewPair): number {
  const { outerRadiusM, centreDistanceM, startCount } = pair;
  // A quarter of the lens: beyond the middle between the axes, above their line, in polar coordinates of the first axis.
  const alongRay = (angleRad: number): number =>
    integral(
      (radiusM) => {
        const acrossM = radiusM * Math.sin(angleRad);
        const otherAngleRad = Math.atan2(acrossM, centreDistanceM - radiusM * Math.cos(angleRad));
        return (otherAngleRad - angleRad) * radiusM;
      },
      centreDistanceM / (2 * Math.cos(angleRad)),
      outerRadiusM,
    );
  return ((4 * startCount) / (2 * Math.PI)) * integral(alongRay, 0, lensAngle(pair));
}

/** Why two screws cannot stand like this; null where they can. */
function refusePair({ outerRadiusM, rootRadiusM, centreDistanceM }: ScrewPair): GeometryRefusal | null {
  const touchingM = outerRadiusM + rootRadiusM;
  if (!(outerRadiusM > rootRadiusM) || centreDistanceM >= 2 * outerRadiusM) {
    return {
      code: 'SCREWS_DO_NOT_MESH',
      quantity: 'running centre distance [m]',
      value: centreDistanceM,
      limit: 2 * outerRadiusM,
      text: `screws of ${lengthInMm(2 * outerRadiusM)} outer and ${lengthInMm(2 * rootRadiusM)} root diameter at a centre distance of ${lengthInMm(centreDistanceM)} do not reach into each other`,
    };
  }
  if (centreDistanceM < touchingM) {
    return {
      code: 'NEGATIVE_CLEARANCE',
      quantity: 'running centre distance [m]',
      value: centreDistanceM,
      limit: touchingM,
      text: `at a centre distance of ${lengthInMm(centreDistanceM)} the tips stand ${lengthInMm(touchingM - centreDistanceM)} deep in the roots: (D + d)/2 is ${lengthInMm(touchingM)}`,
    };
  }
  return null;
}

/**
 * Swept volume of a twin screw pump with rectangular thread from its own measurements, V_g = s A. The spread of the model
 * is the interference of the threads over the open area: by so much the flanks of the real screws must depart from them.
 *
 * @param geometry - strip measurements of the pump record [m]
 * @returns V_g with sensitivities to `geometry.*` sources [m³/rev], ideal ripple 0 [1]; or why not [-]
 *
 * Source: as screwPairOpenArea; JCGM 100:2008, 5.1 for the uncertainty.
 */
export function twinScrewSweptVolume(geometry: TwinScrewGeometry): Outcome<SweptVolume, GeometryRefusal> {
  const { startCount, outerDiameterM, rootDiameterM, runningCentreDistanceM, leadM } = geometry;
  const pair: ScrewPair = {
    startCount,
    outerRadiusM: outerDiameterM.value / 2,
    rootRadiusM: rootDiameterM.value / 2,
    centreDistanceM: runningCentreDistanceM.value,
  };
  const refusal = refusePair(pair);
  if (refusal !== null) return no(refusal);

  const openM2 = screwPairOpenArea(pair);
  const interferenceShare = threadInterference(pair) / openM2;
  const chordM = 2 * Math.sqrt(pair.outerRadiusM ** 2 - (pair.centreDistanceM / 2) ** 2);
  return yes(
    sweptVolumeFrom(
      leadM.value * openM2,
      [
        {
          id: 'outerDiameter',
          label: 'outer diameter of the screws',
          measured: outerDiameterM,
          derivative: leadM.value * pair.outerRadiusM * (Math.PI - 2 * lensAngle(pair)),
        },
        {
          id: 'rootDiameter',
          label: 'root diameter of the screws',
          measured: rootDiameterM,
          derivative: -leadM.value * Math.PI * pair.rootRadiusM,
        },
        {
          id: 'centreDistance',
          label: 'running centre distance',
          measured: runningCentreDistanceM,
          derivative: leadM.value * chordM,
        },
        { id: 'lead', label: 'lead of the thread', measured: leadM, derivative: openM2 },
      ],
      { label: 'rectangular threads interfere: spread of the formula', halfWidth: interferenceShare },
      {
        flowRipple: 0,
        basis: `two screws of ${startCount} start${startCount === 1 ? '' : 's'} with rectangular thread, measured apart; such threads stand in each other by ${(100 * interferenceShare).toFixed(2)} % of the oil space`,
      },
    ),
  );
}
