import type { OilRecord } from '../../analysis/records/oilRecord.ts';
import type { SetUp } from '../../analysis/records/runRecord.ts';
import { PRACTICE_SET_UP } from '../practiceBench/setUp.ts';

/** Oil and set-up of the practice bench, as a person who had measured them would enter them. Invented numbers. */
export const PRACTICE_OIL: OilRecord = {
  name: 'practice oil, VG 68 (invented)',
  viscosityBasis: 'measured',
  lower: PRACTICE_SET_UP.oilLower,
  upper: PRACTICE_SET_UP.oilUpper,
  viscosityRelativeStandardUncertainty: 0.01,
  densityAt15CKgPerM3: PRACTICE_SET_UP.densityAt15CKgPerM3,
  densityRelativeStandardUncertainty: 0.002,
};

export const PRACTICE_RUN_SET_UP: SetUp = {
  barometerPa: { value: PRACTICE_SET_UP.barometerPa, standardUncertainty: 50 },
  staticLiftM: { value: PRACTICE_SET_UP.staticLiftM, standardUncertainty: 0.005 },
  suctionPipeBoreM: PRACTICE_SET_UP.suctionPipeBoreM,
  suctionPipeLengthM: PRACTICE_SET_UP.suctionPipeLengthM,
  deadVolumeM3: PRACTICE_SET_UP.deadVolumeM3,
  deliveryLineVolumeM3: { value: PRACTICE_SET_UP.deliveryLineVolumeM3, standardUncertainty: 5e-7 },
  wetness: 'W1',
  wetting: null,
  suctionPipe: null,
  suctionSideStandardUncertainty: null,
  shaftEnds: 'sealed',
  isDeliveryVented: true,
  endsWithPipeHold: false,
  riserHeightM: null,
};
