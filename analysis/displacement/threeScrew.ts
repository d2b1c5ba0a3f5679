import { no, type Outcome, yes } from '../outcome.ts';
import type { ThreeScrewGeometry } from '../records/geometry/threeScrew.ts';
import { differenceFrom, unitOf } from '../units.ts';
import { type GeometryRefusal, type SweptVolume, sweptVolumeFrom } from './geometryResult.ts';

/** The nominal profile in units of the idler's diameter d, which is the centre distance too [1]. */
export const NOMINAL_PROFILE = {
  powerTip: 5 / 6,
  powerRoot: 1 / 2,
  idlerTip: 1 / 2,
  idlerRoot: 1 / 6,
  lead: 10 / 3,
} as const;

/** How far the measured diameters may be off 5 : 3 before the profile counts as another one; ours [1]. */
const RATIO_TOLERANCE = 0.01;

/** The sharp-edged profile against the handbooks' constant, and what relieved edges do: common practice, no source [1]. */
const PROFILE_HALF_WIDTH = 0.01;

/**
 * Angles of the triangle of both axes and a corner that leaves the mesh, and the share of a turn that a flank takes up.
 * Its sides are 1, 5/6 and 1/2.
 *
 * @returns at the power screw's axis, at the idler's, and their difference, which a flank spans [rad]
 */
export function cornerAngles(): { readonly powerRad: number; readonly idlerRad: number; readonly flankRad: number } {
  const { powerTip, idlerTip } = NOMINAL_PROFILE;
  const powerRad = Math.acos((1 + powerTip ** 2 - idlerTip ** 2) / (2 * powerTip));
  const idlerRad = Math.acos((1 + idlerTip ** 2 - powerTip ** 2) / (2 * idlerTip));
  return { powerRad, idlerRad, flankRad: idlerRad - powerRad };
}

/**
 * ½ ∫ ρ² dθ along the path z = e^(−iφ) − tip e^(−2iφ) of the mating corner at radius `tip`, counted clockwise [d²]. The
 * convex flank of the power screw runs clockwise from root to tip; the hollow one of an idler ends counter-clockwise of
 * its root, so there the sector counts negative.
 */
function flankSector(tip: number, sweptRad: number): number {
  return ((1 + 2 * tip ** 2) * sweptRad - 3 * tip * Math.sin(sweptRad)) / 2;
}

/**
 * Open area of the sharp-edged profile 5/3 : 1 : 1/3: housing less power screw less both idlers, flanks being the paths
 * of the mating corners; A = 1.25187266 d², however the turn is shared between thread and groove.
 *
 * @returns area over the square of the idler's diameter [1]
 *
 * Source: derived here from the profile. Handbooks on three-screw pumps give 1.2433 and V = 4.14 d³, from memory: 0.7 %
 * less, for screws whose edges are relieved.
 */
export function sharpEdgedOpenArea(): number {
  const { powerTip, powerRoot, idlerTip, idlerRoot } = NOMINAL_PROFILE;
  const { powerRad, idlerRad, flankRad } = cornerAngles();
  const lens =
    powerTip ** 2 * (powerRad - Math.sin(2 * powerRad) / 2) + idlerTip ** 2 * (idlerRad - Math.sin(2 * idlerRad) / 2);
  const housing = Math.PI * (powerTip ** 2 + 2 * idlerTip ** 2) - 2 * lens;
  // Two starts: what the flanks leave of half a turn, half of it thread and half groove.
  const arcRad = (Math.PI - 2 * flankRad) / 2;
  const power = (powerTip ** 2 + powerRoot ** 2) * arcRad + 4 * flankSector(idlerTip, idlerRad);
  const idler = (idlerTip ** 2 + idlerRoot ** 2) * arcRad - 4 * flankSector(powerTip, powerRad);
  return housing - power - 2 * idler;
}

/**
 * Swept volume by the handbooks' constant, V = 4.14 d³ at the nominal lead of 10/3 d, in proportion at another.
 *
 * @param idlerDiameterM - d [m]
 * @param leadM - of the thread [m]
 * @returns nominal volume, good to about 1 % [m³/rev]
 *
 * Source: handbooks on three-screw pumps, from memory.
 *
 * @example handbookThreeScrewVolume(0.03, 0.1) // 111.78e-6: d = 30 mm
 */
export function handbookThreeScrewVolume(idlerDiameterM: number, leadM: number): number {
  return ((4.14 * leadM) / NOMINAL_PROFILE.lead) * idlerDiameterM ** 2;
}

function inCm3(volumeM3: number): string {
  return differenceFrom(volumeM3, unitOf('cm3')).toPrecision(5);
}

/**
 * Swept volume of a three-screw pump of the nominal profile, V_g = 1.25187 d² s: 4.1729 d³ at the nominal lead.
 *
 * @param geometry - strip measurements of the pump record [m]
 * @returns V_g with sensitivities to `geometry.*` sources [m³/rev], ideal ripple 0 [1]; or why not [-]
 *
 * Source: as sharpEdgedOpenArea; JCGM 100:2008, 5.1 for the uncertainty.
 */
export function threeScrewSweptVolume(geometry: ThreeScrewGeometry): Outcome<SweptVolume, GeometryRefusal> {
  const { powerDiameterM, idlerDiameterM, leadM } = geometry;
  const ratio = powerDiameterM.value / idlerDiameterM.value;
  const nominalRatio = NOMINAL_PROFILE.powerTip / NOMINAL_PROFILE.idlerTip;
  if (Math.abs(ratio / nominalRatio - 1) > RATIO_TOLERANCE) {
    return no({
      code: 'PROFILE_NOT_NOMINAL',
      quantity: 'power screw over idler diameter [1]',
      value: ratio,
      limit: nominalRatio * (ratio > nominalRatio ? 1 + RATIO_TOLERANCE : 1 - RATIO_TOLERANCE),
      text: `the power screw is ${ratio.toFixed(3)} times as thick as the idlers, the nominal profile has 5/3: another profile is not computed; give the swept volume 'as stated' or 'as turned by hand'`,
    });
  }
  const value = sharpEdgedOpenArea() * idlerDiameterM.value ** 2 * leadM.value;
  const handbookM3 = handbookThreeScrewVolume(idlerDiameterM.value, leadM.value);
  return yes(
    sweptVolumeFrom(
      value,
      [
        {
          id: 'idlerDiameter',
          label: 'outer diameter of the idlers',
          measured: idlerDiameterM,
          derivative: (2 * value) / idlerDiameterM.value,
        },
        { id: 'lead', label: 'lead of the thread', measured: leadM, derivative: value / leadM.value },
      ],
      { label: 'relieved edges: spread of the profile', halfWidth: PROFILE_HALF_WIDTH },
      {
        flowRipple: 0,
        basis: `three screws of the profile 5/3 : 1 : 1/3, measured apart: ${inCm3(value)} cm³/rev with sharp edges (4.1729 d³ at the nominal lead), ${inCm3(handbookM3)} by the handbooks' 4.14 d³`,
      },
    ),
  );
}
