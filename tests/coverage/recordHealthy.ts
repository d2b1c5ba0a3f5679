import type { RunRecord } from '../../analysis/records/runRecord.ts';
import type { DecodedRun } from '../../rig/decode/decodeJournal.ts';
import { createOil } from '../../rig/practiceBench/oil.ts';
import { createRandom } from '../../rig/practiceBench/random.ts';
import type { ErrorShape } from '../../rig/practiceBench/sensors.ts';
import { PRACTICE_SET_UP, type PracticeSetUp } from '../../rig/practiceBench/setUp.ts';
import { type TrueDelivery, trueDelivery } from '../../rig/practiceBench/trueDelivery.ts';
import { PRACTICE_OIL, PRACTICE_RUN_SET_UP } from '../../rig/session/practiceConditions.ts';
import { recordPractice } from '../support/practiceRun.ts';

/** Point at which the sample feed pump's duty speaks. */
export const DUTY = { speedRevPerS: 15, differentialPressurePa: 3e5, oilTemperatureK: 318.15 } as const;

/** A run of a healthy practice bench, and what was true at the duty. */
export type RecordedBench = {
  readonly seed: number;
  readonly run: RunRecord;
  readonly decoded: DecodedRun;
  readonly truth: TrueDelivery;
};

/** Set-up errors have a stream of their own beside those of the bench. */
const SET_UP_STREAM = 77;

/** What really stands around a bench whose papers are off by as much as they state, normal. */
function drawnSetUp(seed: number): PracticeSetUp {
  const random = createRandom(seed, SET_UP_STREAM);
  const { barometerPa } = PRACTICE_RUN_SET_UP;
  const viscosity = 1 + PRACTICE_OIL.viscosityRelativeStandardUncertainty * random.normal();
  const thicker = (point: PracticeSetUp['oilLower']): PracticeSetUp['oilLower'] => ({
    ...point,
    kinematicViscosityM2PerS: viscosity * point.kinematicViscosityM2PerS,
  });
  return {
    ...PRACTICE_SET_UP,
    oilLower: thicker(PRACTICE_SET_UP.oilLower),
    oilUpper: thicker(PRACTICE_SET_UP.oilUpper),
    densityAt15CKgPerM3:
      PRACTICE_SET_UP.densityAt15CKgPerM3 * (1 + PRACTICE_OIL.densityRelativeStandardUncertainty * random.normal()),
    barometerPa: barometerPa.value + barometerPa.standardUncertainty * random.normal(),
  };
}

/**
 * A delivery run of a healthy practice bench, led by the guide: gain and offset of every instrument, barometer and oil
 * are off by draws from what their papers state.
 */
export function recordHealthy(seed: number, sensorShape: ErrorShape): RecordedBench {
  const setUp = drawnSetUp(seed);
  const { run, decoded, bench } = recordPractice('delivery', 'healthy', seed, { setUp, sensorShape, lookEveryS: 1 });
  const { pump } = bench.truth();
  // The inlet stands below the air by the lift and some friction: 5 kPa of it move the oil's density by 3e-6.
  const inletPressurePa = setUp.barometerPa - 5e3;
  return { seed, run, decoded, truth: trueDelivery(pump, createOil(setUp), { ...DUTY, inletPressurePa }) };
}
