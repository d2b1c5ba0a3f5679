import type { TrueState } from './hydraulics.ts';
import type { PracticeChannel, PracticePlant } from './plant.ts';
import type { PracticeSetUp } from './setUp.ts';

/** True value behind each channel. */
export function trueValues(
  setUp: PracticeSetUp,
  plant: PracticePlant,
): Readonly<Record<PracticeChannel, (state: TrueState) => number>> {
  const isSwapped = plant.swappedPressurePorts === true;
  return {
    suctionPressure: (state) => (isSwapped ? state.deliveryPressurePa : state.suctionPressurePa),
    deliveryPressure: (state) => (isSwapped ? state.suctionPressurePa : state.deliveryPressurePa),
    flow: (state) => state.meterFlowM3PerS,
    speed: (state) => state.speedRevPerS,
    oilTemperature: (state) => state.oilTemperatureK,
    meterTemperature: (state) => state.meterTemperatureK,
    caseTemperature: (state) => state.caseTemperatureK,
    torque: (state) => state.torqueNM,
    barometer: () => setUp.barometerPa,
  };
}
