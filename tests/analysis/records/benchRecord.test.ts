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
});
