import { describe, expect, it } from 'vitest';
import { benchRecord } from '../../../analysis/records/benchRecord.ts';
import { withCalibration } from '../../../rig/session/withCalibration.ts';
import { sampleBench } from '../../support/samples.ts';

const STATED = {
  reference: 'K-77 (invented)',
  calibratedOn: '2026-11-01',
  dueOn: '2027-11-01',
  gain: { standardUncertainty: 0.002, shape: 'normal' },
  offset: { standardUncertainty: 0.001, shape: 'normal' },
};

describe('a calibration entered into a bench record', () => {
  it('changes its channel and no other', () => {
    const before = sampleBench();
    const after = benchRecord.parse(withCalibration(before, 'flow', STATED));
    expect(after.channels.find(({ channel }) => channel === 'flow')?.calibration).toMatchObject({
      reference: 'K-77 (invented)',
    });
    const others = (bench: typeof before) => bench.channels.filter(({ channel }) => channel !== 'flow');
    expect(others(after)).toEqual(others(before));
  });

  it('takes the scale away where the calibration brings a curve, which takes raw values', () => {
    const bench = sampleBench();
    const scaled = {
      ...bench,
      channels: bench.channels.map((entry) =>
        entry.channel === 'flow' ? { ...entry, scale: { gain: 2, offset: 0 } } : entry,
      ),
    };
    const points = [0, 5, 10, 15].map((raw) => ({ raw, reference: 2 * raw }));
    const curve = { degree: 1, points, referenceStandardUncertainty: 0.01 };
    const after = benchRecord.parse(withCalibration(scaled, 'flow', { ...STATED, curve }));
    expect(after.channels.find(({ channel }) => channel === 'flow')?.scale).toEqual({ gain: 1, offset: 0 });
  });

  it('refuses a channel that the bench does not have', () => {
    expect(() => withCalibration(sampleBench(), 'tankLevel', STATED)).toThrow(/no channel "tankLevel"/);
  });
});
