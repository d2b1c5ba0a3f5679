import { type GearMesh, type GearPair, gearMesh } from '../../analysis/displacement/gearMesh.ts';
import { accepted } from './accepted.ts';

/** Two gears of 20°, lengths in millimetres. */
export type GearsMm = {
  readonly kind?: GearPair['kind'];
  readonly teeth: readonly [driver: number, driven: number];
  readonly module: number;
  readonly tipRadii: readonly [driver: number, driven: number];
  readonly centreDistance: number;
};

export function pairOf({ kind = 'external', teeth, module, tipRadii, centreDistance }: GearsMm, scale = 1): GearPair {
  const metres = scale / 1000;
  return {
    kind,
    toothCount: { driver: teeth[0], driven: teeth[1] },
    moduleM: module * metres,
    pressureAngleRad: Math.PI / 9,
    driverTipRadiusM: tipRadii[0] * metres,
    drivenTipRadiusM: tipRadii[1] * metres,
    centreDistanceM: centreDistance * metres,
  };
}

export function meshOf(gears: GearsMm, scale = 1): GearMesh {
  return accepted(gearMesh(pairOf(gears, scale)));
}

/** Standard addendum. */
export const TWELVE_TEETH: GearsMm = { teeth: [12, 12], module: 3, tipRadii: [21, 21], centreDistance: 36 };
export const FOURTEEN_TEETH: GearsMm = { teeth: [14, 14], module: 2.5, tipRadii: [20, 20], centreDistance: 35 };
/** Tips of 25 mm where the standard has 24.5. */
export const LONG_TIPS: GearsMm = { teeth: [12, 12], module: 3.5, tipRadii: [25, 25], centreDistance: 42 };
export const UNEQUAL: GearsMm = { teeth: [10, 14], module: 3, tipRadii: [18, 24], centreDistance: 36 };
/** Spread by 0.5 mm: profile shift on both gears. */
export const SPREAD: GearsMm = { teeth: [10, 14], module: 3, tipRadii: [18.5, 24.3], centreDistance: 36.5 };
/** Standard addenda: the tips would run into each other, but the formula has a published value. */
export const RING_OF_NINETEEN: GearsMm = {
  kind: 'internal',
  teeth: [13, 19],
  module: 3,
  tipRadii: [22.5, 25.5],
  centreDistance: 9,
};
export const RING_OF_EIGHTEEN: GearsMm = {
  kind: 'internal',
  teeth: [12, 18],
  module: 3,
  tipRadii: [21, 24],
  centreDistance: 9,
};
/** The ring of nineteen with its tips cut back until it can turn. */
export const CUT_BACK_RING: GearsMm = { ...RING_OF_NINETEEN, tipRadii: [22.5, 27] };
