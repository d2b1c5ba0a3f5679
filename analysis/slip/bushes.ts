import { type Outcome, yes } from '../outcome.ts';
import type { ShaftInBush } from '../records/stripSheet.ts';
import type { StripRefusal } from '../strip/stripRefusal.ts';
import { faceAndShaft } from './faceAndShaft.ts';
import { annularGapConductance, discGapConductance } from './gapLaws.ts';
import type { Gap, QuantityReader } from './gapMap.ts';
import { binding, warmBushClearance } from './warmParts.ts';

/** A bush of the strip sheet, by the quantity that holds its diametral clearance. */
export type Bush = Pick<ShaftInBush, 'part' | 'where' | 'lengthM' | 'isDrained'> & {
  readonly id: string;
  readonly shaftDiameterM: number;
};

/** A bush with its clearance at temperature. */
export type WarmBush = { readonly bush: Bush; readonly radialClearanceM: number };

/** The bushes of a gear or rotor at temperature, or the refusal that a shaft binds in one. */
export function warmBushes(
  read: QuantityReader,
  bushes: readonly Bush[],
  warmingK: number,
): Outcome<readonly WarmBush[], StripRefusal> {
  const warm: WarmBush[] = [];
  for (const bush of bushes) {
    const radialClearanceM = warmBushClearance(read, bush.id, bush.shaftDiameterM, warmingK) / 2;
    if (radialClearanceM < 0) return binding(`clearance of the shaft, ${bush.where}`, radialClearanceM);
    warm.push({ bush, radialClearanceM });
  }
  return yes(warm);
}

/** Bushes by the gear they carry. */
export function bushesByPart(bushes: readonly Bush[]): Readonly<Record<Bush['part'], readonly Bush[]>> {
  return {
    driver: bushes.filter(({ part }) => part === 'driver'),
    driven: bushes.filter(({ part }) => part === 'driven'),
  };
}

/**
 * How far a gear leans to the suction side: its share of the mean radial clearance of its bushes; 0 without bushes.
 *
 * @param bushes - of this gear, warm [m]
 * @param leanShare - 0 central to 1 touching [1]
 * @returns lean [m]
 */
export function leanOf(bushes: readonly WarmBush[], leanShare: number): number {
  if (bushes.length === 0) return 0;
  let sumM = 0;
  for (const { radialClearanceM } of bushes) sumM += radialClearanceM;
  return (leanShare * sumM) / bushes.length;
}

/**
 * Conductance of a bush to where it drains; none where it is blind.
 *
 * @param warm - bush with its clearance at temperature [m]
 * @param eccentricity - 0 central to 1 touching [1]
 * @returns conductance [m³]
 */
export function bushConductance(warm: WarmBush, eccentricity: number): number {
  const { bush, radialClearanceM } = warm;
  if (!bush.isDrained) return 0;
  return annularGapConductance(bush.shaftDiameterM, radialClearanceM, bush.lengthM, eccentricity);
}

/** Along a shaft through its bush, with the conductance that the rest of its way leaves it. */
export function shaftGap(bush: Bush, conductanceM3: number): Gap {
  return {
    place: 'along the shafts',
    label: bush.where,
    conductanceM3,
    dragM3PerRev: 0,
    breadthM: Math.PI * bush.shaftDiameterM,
    dragPerBreadthM2PerRev: 0,
  };
}

/** One gear between two faces. */
export type GearFaces = {
  readonly label: string;
  readonly rootDiameterM: number;
  /** Of the shaft, where no bush says it. */
  readonly shaftDiameterM: number;
  readonly endFloatM: number;
  /** 0 in the middle, 1 against one face [1]. */
  readonly faceOffset: number;
  readonly bushes: readonly WarmBush[];
  readonly eccentricity: number;
};

/** Gaps over both faces of a gear and along its bushes, the first bush at the wider face. */
export function faceGaps(gear: GearFaces): readonly Gap[] {
  const { rootDiameterM, endFloatM, faceOffset, bushes, eccentricity } = gear;
  const shafts: Gap[] = [];
  let facesM3 = 0;
  for (let face = 0; face < 2; face += 1) {
    const warm = bushes[face];
    const shaftDiameterM = warm?.bush.shaftDiameterM ?? gear.shaftDiameterM;
    const heightM = (endFloatM / 2) * (face === 0 ? 1 + faceOffset : 1 - faceOffset);
    const ways = faceAndShaft(
      discGapConductance(heightM, shaftDiameterM / 2, rootDiameterM / 2),
      warm === undefined ? 0 : bushConductance(warm, eccentricity),
    );
    facesM3 += ways.facesM3;
    if (warm?.bush.isDrained === true) shafts.push(shaftGap(warm.bush, ways.shaftM3));
  }
  const faces: Gap = {
    place: 'over the faces',
    label: gear.label,
    conductanceM3: facesM3,
    dragM3PerRev: 0,
    // In over half the circumference of two faces, at its narrowest round the shaft.
    breadthM: Math.PI * (bushes[0]?.bush.shaftDiameterM ?? gear.shaftDiameterM),
    dragPerBreadthM2PerRev: 0,
  };
  return [faces, ...shafts];
}
