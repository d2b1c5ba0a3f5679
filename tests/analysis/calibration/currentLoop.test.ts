import { expect, it } from 'vitest';
import { currentLoopQuality } from '../../../analysis/calibration/currentLoop.ts';
import { QUALITY } from '../../../analysis/readings.ts';

it('tells measurement, overrange and failure of a current loop apart at the limits of NAMUR NE 43', () => {
  // NAMUR NE 43: 3.8 to 20.5 mA measurement; 3.6 mA and below, 21.0 mA and above failure.
  const { good, outOfRange, sensorFault } = QUALITY;
  expect([3.8, 4, 12, 20, 20.5].map(currentLoopQuality)).toEqual([good, good, good, good, good]);
  expect([3.61, 3.79, 20.51, 20.99].map(currentLoopQuality)).toEqual([outOfRange, outOfRange, outOfRange, outOfRange]);
  expect([0, 3.6, 21, 22.5].map(currentLoopQuality)).toEqual([sensorFault, sensorFault, sensorFault, sensorFault]);
});
