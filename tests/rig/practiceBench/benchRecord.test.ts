import { expect, it } from 'vitest';
import { PRACTICE_SENSORS } from '../../../rig/practiceBench/sensors.ts';
import { practiceBenchRecord } from '../../support/practiceRun.ts';
import { sampleBench } from '../../support/samples.ts';

it('the bench record states what the sensors of the practice bench have, channel by channel in the order of the line', () => {
  // Both are written by hand: the record is what a person would know of these instruments, and it must not be kinder.
  const stated = sampleBench()
    .channels.toSorted((a, b) => a.position - b.position)
    .map(({ channel, unit, resolution, lagS, range, calibration }) => ({
      channel,
      unit,
      resolution,
      lagS,
      range,
      gainStandardUncertainty: calibration?.gain.standardUncertainty,
      offsetStandardUncertainty: calibration?.offset.standardUncertainty,
    }));
  expect(stated).toEqual(PRACTICE_SENSORS.map(({ stageLagsS, noise, ...sensor }) => sensor));
  expect(sampleBench().channels.map(({ position }) => position)).toEqual(PRACTICE_SENSORS.map((_, index) => index + 1));
});

it('states its errors in the shape in which they are drawn', () => {
  for (const shape of ['normal', 'rectangular'] as const) {
    for (const { calibration } of practiceBenchRecord(shape).channels) {
      expect([calibration?.gain.shape, calibration?.offset.shape]).toEqual([shape, shape]);
    }
  }
});
