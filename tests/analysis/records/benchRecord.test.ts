import { describe, expect, it } from 'vitest';
import { benchRecord } from '../../../analysis/records/benchRecord.ts';
import { describeIssues } from '../../../analysis/records/fields.ts';
import { sampleBench } from '../../support/samples.ts';

const bench = sampleBench();

function complaint(record: unknown): string {
  const parsed = benchRecord.safeParse(record);
  return parsed.success ? '' : describeIssues(parsed.error);
}

function withFirstChannel(change: Readonly<Record<string, unknown>>): unknown {
  const [first, ...others] = bench.channels;
  return { ...bench, channels: [{ ...first, ...change }, ...others] };
}

describe('a bench record', () => {
  it('is taken back as it was written', () => {
    expect(benchRecord.parse(JSON.parse(JSON.stringify(bench)))).toEqual(bench);
  });

  it('describes the default sentence when nothing else is said', () => {
    // The default line: `$seq,device_us,v1,v2,...*HHHH` with CRC-16/MODBUS, ended by CR LF.
    const { wire } = benchRecord.parse({ ...bench, wire: { baudRate: 115200 } });
    expect(wire).toMatchObject({ delimiter: '\r\n', prefix: '$', checksum: 'crc16' });
    expect(wire.sequenceBits).not.toBeNull();
    expect(wire.deviceClockBits).not.toBeNull();
  });

  it('refuses a channel that does not exist, and lists those that do', () => {
    const said = complaint(withFirstChannel({ channel: 'pressure' }));
    expect(said).toContain('channels.0.channel');
    expect(said).toContain('suctionPressure');
    expect(complaint(withFirstChannel({ channel: 'constructor' }))).toContain('channels.0.channel');
  });

  it('refuses a unit of another quantity, and bar that does not say of what', () => {
    const pressureAt = bench.channels.findIndex(({ channel }) => channel === 'deliveryPressure');
    const withUnit = (unit: string): unknown => ({
      ...bench,
      channels: bench.channels.map((entry, index) => (index === pressureAt ? { ...entry, unit } : entry)),
    });
    expect(complaint(withUnit('l/min'))).toContain(`channels.${pressureAt}.unit`);
    expect(complaint(withUnit('bar'))).toContain(`channels.${pressureAt}.unit`);
    expect(complaint(withUnit('psi(g)'))).toBe('');
  });

  it('refuses two channels at one position, and one channel twice', () => {
    const [first, second] = bench.channels;
    expect(complaint({ ...bench, channels: [first, { ...second, position: first?.position }] })).toContain(
      'channels.1.position',
    );
    expect(complaint({ ...bench, channels: [first, { ...first, position: 99 }] })).toContain('channels.1.channel');
    expect(complaint({ ...bench, channels: [] })).toContain('channels');
  });

  it('may hold a channel that nobody vouches for', () => {
    expect(complaint(withFirstChannel({ calibration: null }))).toBe('');
    expect(complaint(withFirstChannel({ calibration: undefined }))).toContain('channels.0.calibration');
  });

  it('still takes records that say nothing of signal, tapping, K-factor, drift, curve or class', () => {
    const [first] = bench.channels;
    const { signal, tapping, kFactor, calibration, ...old } = first ?? {};
    const { linearity, driftPerYear, curve, accuracyClass, ...oldCalibration } = calibration ?? {};
    const [parsed] = benchRecord.parse(withFirstChannel({ ...old, calibration: oldCalibration })).channels;
    expect(parsed).toMatchObject({ signal: 'engineering', tapping: null, kFactor: null });
    expect(parsed?.calibration).toMatchObject({
      curve: null,
      accuracyClass: null,
      driftPerYear: { gain: 0, offset: 0 },
    });
  });

  it('takes an accuracy class in the place of gain and offset, and neither by halves', () => {
    const { calibration } = bench.channels[0] ?? {};
    const { gain, offset, ...rest } = calibration ?? {};
    const classed = withFirstChannel({ calibration: { ...rest, accuracyClass: { percentOfSpan: 0.25 } } });
    const parsed = benchRecord.parse(classed);
    expect(parsed.channels[0]?.calibration?.accuracyClass).toEqual({ percentOfSpan: 0.25, percentOfReading: 0 });
    expect(benchRecord.parse(JSON.parse(JSON.stringify(parsed)))).toEqual(parsed);
    expect(complaint(withFirstChannel({ calibration: { ...rest, gain } }))).toContain('channels.0.calibration.offset');
    expect(complaint(withFirstChannel({ calibration: rest }))).toContain('channels.0.calibration.gain');
  });

  it('refuses a calibration curve that has none, and one beside a scale', () => {
    const { calibration } = bench.channels[0] ?? {};
    const withCurve = (
      raws: readonly number[],
      references: readonly number[],
      scale = { gain: 1, offset: 0 },
    ): string => {
      const points = raws.map((raw, index) => ({ raw, reference: references[index] }));
      const curve = { degree: 1, points, referenceStandardUncertainty: 0 };
      return complaint(withFirstChannel({ scale, calibration: { ...calibration, curve } }));
    };
    expect(withCurve([0, 1, 2], [0, 1, 2])).toBe('');
    expect(withCurve([0, 1, 2], [1, 1, 1])).toContain('channels.0.calibration.curve.points');
    expect(withCurve([1, 1, 1], [0, 1, 2])).toContain('channels.0.calibration.curve.points');
    expect(withCurve([0, 1, 2], [0, 1, 2], { gain: 2, offset: 0 })).toContain('channels.0.scale');
  });

  it('refuses a tapping where there is no pressure, a K-factor where there is no flow, and ranges and tables upside down', () => {
    const withChannel = (name: string, change: Readonly<Record<string, unknown>>): string =>
      complaint({
        ...bench,
        channels: bench.channels.map((entry) => (entry.channel === name ? { ...entry, ...change } : entry)),
      });
    const tapping = { heightOverInletM: { value: 0.2, standardUncertainty: 0.01 }, tubeFilledWith: 'oil' };
    const kFactorAt = (viscosities: readonly number[]) => ({
      table: viscosities.map((kinematicViscosityM2PerS) => ({ kinematicViscosityM2PerS, ratio: 1 })),
      relativeStandardUncertainty: 0.001,
    });
    expect(withChannel('suctionPressure', { tapping })).toBe('');
    expect(withChannel('flow', { tapping })).toContain('tapping');
    expect(withChannel('suctionPressure', { channel: 'barometer', tapping })).toContain('tapping');
    expect(withChannel('flow', { kFactor: kFactorAt([1e-5, 1e-4]) })).toBe('');
    expect(withChannel('speed', { kFactor: kFactorAt([1e-5, 1e-4]) })).toContain('kFactor');
    expect(withChannel('flow', { kFactor: kFactorAt([1e-4, 1e-5]) })).toContain('kFactor.table');
    expect(withChannel('flow', { kFactor: kFactorAt([1e-4, 1e-4]) })).toContain('kFactor.table');
    expect(withChannel('flow', { range: { min: 40, max: 0 } })).toContain('range');
  });
});
