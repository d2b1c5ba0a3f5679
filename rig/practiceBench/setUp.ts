/** A kinematic viscosity at a temperature; two of them fix an oil. */
type ViscosityPoint = { readonly temperatureK: number; readonly kinematicViscosityM2PerS: number };

/** What stands around the practice pump: suction side, oil and air. Samples and sessions use the same numbers. */
export type PracticeSetUp = {
  readonly barometerPa: number;
  /** Height of the pump inlet over the oil surface. */
  readonly staticLiftM: number;
  readonly suctionPipeBoreM: number;
  /** From the oil surface to the pump flange: straight up by the lift, the rest level. */
  readonly suctionPipeLengthM: number;
  /** Gas volume between the flange and the gears. */
  readonly deadVolumeM3: number;
  /** Between the pump's outlet port and the flow meter; empty after a dry start is set up. */
  readonly deliveryLineVolumeM3: number;
  readonly oilLower: ViscosityPoint;
  readonly oilUpper: ViscosityPoint;
  readonly densityAt15CKgPerM3: number;
};

/** Oil of the kind ISO VG 68, half a metre of lift: invented numbers. */
export const PRACTICE_SET_UP: PracticeSetUp = {
  barometerPa: 101_325,
  staticLiftM: 0.45,
  suctionPipeBoreM: 0.025,
  suctionPipeLengthM: 0.8,
  deadVolumeM3: 60e-6,
  deliveryLineVolumeM3: 6e-6,
  oilLower: { temperatureK: 313.15, kinematicViscosityM2PerS: 68e-6 },
  oilUpper: { temperatureK: 373.15, kinematicViscosityM2PerS: 8.7e-6 },
  densityAt15CKgPerM3: 875,
};
