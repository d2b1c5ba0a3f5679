import { describe, expect, it } from 'vitest';
import { zeroFindings } from '../../../analysis/calibration/zeroFindings.ts';
import type { RunRecord } from '../../../analysis/records/runRecord.ts';
import { benchWithChannel } from '../../support/benchChannel.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { inventedRun } from '../../support/inventedRun.ts';

function runWith(channel: string, offset: number, isApplied = true, bench = inventedBench()): RunRecord {
  const zero = { channel, offset, standardUncertainty: 0, isApplied };
  return { ...inventedRun('delivery', bench), zeroCheck: { takenAtUtc: '2026-06-01T07:55:00Z', channels: [zero] } };
}

describe('what a zero check says of the calibrations', () => {
  it('warns of an offset beyond three times what is stated, and names channel and calibration', () => {
    // By hand: the invented delivery transmitter states u = 0.003 bar of offset: 0.009 bar.
    expect(zeroFindings(runWith('deliveryPressure', 0.0089))).toEqual([]);
    const [finding] = zeroFindings(runWith('deliveryPressure', -0.0091));
    expect(finding).toMatchObject({ code: 'ZERO_OFFSET', severity: 'warning' });
    for (const part of ['delivery pressure', '−0.0091', 'invented-1', 'taken off every reading']) {
      expect(finding?.text).toContain(part);
    }
  });

  it('says where the offset stands in every value', () => {
    expect(zeroFindings(runWith('flow', 0.1, false))[0]?.text).toContain('not taken off');
  });

  it('allows an absolute pressure its gain at the barometer and the barometer’s own error', () => {
    // By hand: gain 0.05 % of 1.01325 bar = 50.66 Pa, offset 50 Pa, barometer 50 Pa: u = 86.99 Pa, three times 0.002610 bar.
    expect(zeroFindings(runWith('suctionPressure', 0.0026))).toEqual([]);
    expect(zeroFindings(runWith('suctionPressure', 0.00262))).toHaveLength(1);
  });

  it('expects nothing of a channel that nobody calibrated, or of a run without a check', () => {
    const bench = benchWithChannel('flow', { calibration: null });
    expect(zeroFindings(runWith('flow', 1, true, bench))).toEqual([]);
    expect(zeroFindings(inventedRun('delivery'))).toEqual([]);
  });
});
