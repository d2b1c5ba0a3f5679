import type { DryPump } from '../../analysis/dryLift/model/dryPump.ts';
import type { DryStart } from '../../analysis/dryLift/model/dryStart.ts';
import type { SuctionPipe } from '../../analysis/dryLift/model/suctionPipe.ts';

/** A pump that nothing leaks back through. */
export const TIGHT_PUMP: DryPump = {
  capacityM3PerRev: 20e-6,
  gapConstantM3PerSPerPa: 0,
  gapChange: null,
  entryLossS2PerM6: 0,
  carryOverShare: 0,
  shaftLeakM3PerSPerPa: 0,
};

/** A smooth riser of 25 mm bore without fittings, 0.2 m of it in the oil. */
export function riser(liftM: number): SuctionPipe {
  const plain = { boreM: 0.025, roughnessM: 0, fittingsLossCoefficient: 0 };
  return {
    submerged: { ...plain, lengthM: 0.2 },
    segments: [{ ...plain, lengthM: liftM, riseM: liftM }],
    hasFootValve: false,
  };
}

/** A start of the tight pump at 1450 r/min from half a metre, 50 ml of dead volume, isothermal, delivery vented. */
export const PLAIN_START: DryStart = {
  pump: TIGHT_PUMP,
  speedRevPerS: () => 1450 / 60,
  atmospherePa: 101_325,
  deliveryPressurePa: 101_325,
  polytropicExponent: 1,
  pipe: riser(0.5),
  deadVolumeM3: 50e-6,
  oil: { dynamicViscosityPaS: 870 * 46e-6, densityKgPerM3: 870 },
  outletVolumeM3: 0,
  deliveryLineVolumeM3: 0,
};
