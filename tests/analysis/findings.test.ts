import { expect, it } from 'vitest';
import { runFindings } from '../../analysis/findings.ts';
import { isAllGood, QUALITY, type Readings } from '../../analysis/readings.ts';
import { inventedRun } from '../support/inventedRun.ts';
import { sampledReadings } from '../support/readings.ts';

/** A thousand readings, the first few of them from a failed transmitter. */
function withFaults(faultCount: number): Readings {
  const readings = sampledReadings(20, 50, { oilTemperature: () => 318.15, flow: () => 1e-4 });
  readings.channels.flow?.quality.fill(QUALITY.sensorFault, 0, faultCount);
  return readings;
}

it.each([
  { faultCount: 0, severity: undefined },
  { faultCount: 10, severity: 'warning' },
  { faultCount: 11, severity: 'unfit' },
])('a transmitter that failed in $faultCount of 1000 readings: $severity', ({ faultCount, severity }) => {
  // House limit: more than 1 % of the readings.
  const census = {
    lineCount: 1000,
    readingCount: 1000,
    noteCount: 0,
    badLineCounts: {},
    lostReadingCount: 0,
    reconnectCount: 0,
  };
  const findings = runFindings(inventedRun('delivery'), withFaults(faultCount), census, false);
  const fault = findings.find(({ code }) => code === 'SENSOR_FAULT');
  expect(fault?.severity).toBe(severity);
  if (severity !== undefined) expect(fault?.text).toContain(`'flow' reported a failure`);
  expect(findings.some(({ code }) => code === 'OUT_OF_RANGE')).toBe(false);
});

it('a column without a gap is told from one with a single bad value, wherever it stands and however the column lies in memory', () => {
  for (const offset of [0, 1, 2, 3]) {
    const quality = new Uint8Array(new ArrayBuffer(40), offset, 21);
    expect(isAllGood(quality)).toBe(true);
    for (let index = 0; index < quality.length; index += 1) {
      quality[index] = QUALITY.missing;
      expect(isAllGood(quality)).toBe(false);
      quality[index] = QUALITY.good;
    }
  }
  expect(isAllGood(new Uint8Array(0))).toBe(true);
});
