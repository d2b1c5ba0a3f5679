import { no, type Outcome, yes } from '../outcome.ts';
import type { ExternalGearGeometry } from '../records/geometry/externalGear.ts';
import { differenceFrom, unitOf } from '../units.ts';
import { type GeometryRefusal, type SweptVolume, sweptVolumeFrom } from './geometryResult.ts';

/** Half-width of the formula's own spread with relief grooves and backlash, relative; common practice, no source [1]. */
const RELIEVED_HALF_WIDTH = 0.005;

/** The lengths that make the volume; a shorthand for the formulas below [m, rad]. */
export type EqualGears = {
  readonly moduleM: number;
  readonly pressureAngleRad: number;
  readonly tipRadiusM: number;
  /** Half the running centre distance. */
  readonly pitchRadiusM: number;
  readonly faceWidthM: number;
};

/** Base pitch of the cutter p_b = π m cos α [m]. */
function basePitchM({ moduleM, pressureAngleRad }: EqualGears): number {
  return Math.PI * moduleM * Math.cos(pressureAngleRad);
}

/**
 * Swept volume of two equal involute gears: V_g = 2π b (r_a² − r_w² − p_b²/12), from the instantaneous flow
 * b ω (r_a² − r_w² − s²) averaged over −p_b/2 ≤ s ≤ p_b/2.
 *
 * @param gears - lengths and pressure angle [m, rad]
 * @returns volume displaced in a turn of the shaft [m³/rev]
 *
 * Source: Manring and Kasaragadda (2003), ASME J. Dyn. Syst. Meas. Control 125, 396-404; Ivantysyn and Ivantysynova,
 * Hydrostatic Pumps and Motors (2001), gear pumps.
 */
export function equalGearSweptVolume(gears: EqualGears): number {
  const { tipRadiusM, pitchRadiusM, faceWidthM } = gears;
  return 2 * Math.PI * faceWidthM * (tipRadiusM ** 2 - pitchRadiusM ** 2 - basePitchM(gears) ** 2 / 12);
}

/**
 * Ideal flow ripple of two equal gears: δ = (q_max − q_min)/q_mean = (p_b²/4)/(r_a² − r_w² − p_b²/12), at tooth frequency.
 *
 * @param gears - lengths and pressure angle [m, rad]
 * @returns ripple over mean [1]
 *
 * Source: Manring and Kasaragadda (2003).
 */
export function equalGearFlowRipple(gears: EqualGears): number {
  const { tipRadiusM, pitchRadiusM } = gears;
  const pitchM = basePitchM(gears);
  return pitchM ** 2 / 4 / (tipRadiusM ** 2 - pitchRadiusM ** 2 - pitchM ** 2 / 12);
}

/**
 * Contact ratio of two equal gears: length of the path of contact over the base pitch,
 * ε = 2 (√(r_a² − r_b²) − √(r_w² − r_b²))/p_b; under 1 they cannot mesh all round.
 *
 * @param gears - lengths and pressure angle [m, rad]
 * @param toothCount - teeth of one gear [1]
 * @returns contact ratio; NaN if the gears run inside their base circles [1]
 *
 * Source: involute geometry, e.g. ISO 21771:2007, clause 5.
 */
export function equalGearContactRatio(gears: EqualGears, toothCount: number): number {
  const baseRadiusM = (toothCount * gears.moduleM * Math.cos(gears.pressureAngleRad)) / 2;
  const halfPathM =
    Math.sqrt(gears.tipRadiusM ** 2 - baseRadiusM ** 2) - Math.sqrt(gears.pitchRadiusM ** 2 - baseRadiusM ** 2);
  return (2 * halfPathM) / basePitchM(gears);
}

/**
 * How far the swept volume can stray from the formula where relief grooves or backlash are missing, relative.
 * Without grooves the newest contact seals the outlet: s runs over a base pitch from the end of the path of contact,
 * not from −p_b/2, and the volume falls by ((ε − 1) p_b/2)²/(r_a² − r_w² − p_b²/12). Without backlash both flanks seal,
 * half a base pitch apart, and it rises by (p_b²/16)/(the same).
 *
 * @param gears - lengths and pressure angle [m, rad]
 * @param contactRatio - ε, 1 or more [1]
 * @returns the larger of the two, used as a half-width [1]
 *
 * Source: derived here from the instantaneous flow of equalGearSweptVolume; no published source.
 */
export function unrelievedSpread(gears: EqualGears, contactRatio: number): number {
  const pitchM = basePitchM(gears);
  const meanM2 = gears.tipRadiusM ** 2 - gears.pitchRadiusM ** 2 - pitchM ** 2 / 12;
  return Math.max((((contactRatio - 1) * pitchM) / 2) ** 2, pitchM ** 2 / 16) / meanM2;
}

function inMm(lengthM: number): string {
  return `${differenceFrom(lengthM, unitOf('mm')).toFixed(2)} mm`;
}

/**
 * Swept volume of an external gear pump from its own measurements, with the uncertainty of each.
 *
 * @param geometry - strip measurements of the pump record [m, rad]
 * @returns V_g with sensitivities to `geometry.*` sources [m³/rev], ripple [1]; or why these gears cannot mesh [-]
 *
 * Source: as equalGearSweptVolume; JCGM 100:2008, 5.1 for the uncertainty.
 */
export function externalGearSweptVolume(geometry: ExternalGearGeometry): Outcome<SweptVolume, GeometryRefusal> {
  const { tipDiameterM, runningCentreDistanceM, faceWidthM, moduleM, pressureAngleRad, toothCount } = geometry;
  const gears: EqualGears = {
    moduleM,
    pressureAngleRad,
    tipRadiusM: tipDiameterM.value / 2,
    pitchRadiusM: runningCentreDistanceM.value / 2,
    faceWidthM: faceWidthM.value,
  };
  if (!(tipDiameterM.value > runningCentreDistanceM.value)) {
    return no({
      code: 'TIP_BELOW_PITCH',
      quantity: 'tip diameter [m]',
      value: tipDiameterM.value,
      limit: runningCentreDistanceM.value,
      text: `the tip diameter of ${inMm(tipDiameterM.value)} is not larger than the centre distance of ${inMm(runningCentreDistanceM.value)}: these gears do not reach each other`,
    });
  }
  const contactRatio = equalGearContactRatio(gears, toothCount.driver);
  if (!(contactRatio >= 1)) {
    return no({
      code: 'CONTACT_RATIO_BELOW_ONE',
      quantity: 'contact ratio [1]',
      value: Number.isNaN(contactRatio) ? 0 : contactRatio,
      limit: 1,
      text: `the contact ratio is ${Number.isNaN(contactRatio) ? 'none: the gears run inside their base circles' : contactRatio.toFixed(3)}; gears that drive each other need 1 at the least: measure tip diameter, centre distance and module again`,
    });
  }
  // Positive whenever the contact ratio is 1 or more: r_a² − r_w² is then p_b²/4 at the least.
  const value = equalGearSweptVolume(gears);
  const perLengthM2 = Math.PI * gears.faceWidthM;
  const isRelieved = geometry.hasReliefGrooves && geometry.backlashM.value > 0;
  return yes(
    sweptVolumeFrom(
      value,
      [
        {
          id: 'tipDiameter',
          label: 'tip diameter of the gears',
          measured: tipDiameterM,
          derivative: perLengthM2 * tipDiameterM.value,
        },
        {
          id: 'centreDistance',
          label: 'running centre distance',
          measured: runningCentreDistanceM,
          derivative: -perLengthM2 * runningCentreDistanceM.value,
        },
        {
          id: 'faceWidth',
          label: 'face width of the gears',
          measured: faceWidthM,
          derivative: value / gears.faceWidthM,
        },
      ],
      {
        label: 'relief grooves and backlash: spread of the formula',
        halfWidth: isRelieved ? RELIEVED_HALF_WIDTH : unrelievedSpread(gears, contactRatio),
      },
      {
        flowRipple: equalGearFlowRipple(gears),
        basis: `two equal gears of ${toothCount.driver} teeth, measured apart`,
      },
    ),
  );
}
