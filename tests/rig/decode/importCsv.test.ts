import { expect, it } from 'vitest';
import { QUALITY } from '../../../analysis/readings.ts';
import { importCsv } from '../../../rig/decode/importCsv.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const BAROMETER_PA = 100_000;

function read(text: string) {
  return importCsv(Buffer.from(text, 'utf8'), inventedBench(), BAROMETER_PA);
}

function refusal(text: string): string {
  try {
    read(text);
  } catch (error) {
    expect(error).toMatchObject({ code: 'CSV' });
    return error instanceof Error ? error.message : '';
  }
  throw new Error('expected a refusal');
}

it('reads the headings of the README, in any order, quoted or not, behind a byte order mark or not', () => {
  const { elapsedS, channels } = read(
    '\ufeff"speed [r/min]",elapsed [s],suctionPressure [bar(a)],deliveryPressure [bar(g)],flow [l/min],oilTemperature [degC]\r\n' +
      '600,2.5,0.8,3,12,40\r\n660,3,0.9,4,13.2,41\r\n',
  );
  expect([...elapsedS]).toEqual([0, 0.5]);
  // By hand: 600/60; 0.8 bar; 3 bar + 1 bar barometer; 0.012/60; 40 + 273.15.
  expect(channels.speed?.values[0]).toBe(10);
  expectRelative(channels.suctionPressure?.values[0] ?? Number.NaN, 80_000, 1e-12);
  expectRelative(channels.deliveryPressure?.values[0] ?? Number.NaN, 400_000, 1e-12);
  expectRelative(channels.flow?.values[0] ?? Number.NaN, 2e-4, 1e-12);
  expectRelative(channels.oilTemperature?.values[0] ?? Number.NaN, 313.15, 1e-12);
});

it('converts another unit of the same quantity: psi, US gallons and degrees Fahrenheit', () => {
  const { channels } = read(
    'elapsed [ms],deliveryPressure [psi(a)],flow [US gal/min],oilTemperature [degF]\n0,100,1,104\n',
  );
  // NIST SP 811 B.8: 1 psi = 6.894757 E+03 Pa, 1 US gal/min = 6.309020 E-05 m³/s; 104 °F = 40 °C.
  expectRelative(channels.deliveryPressure?.values[0] ?? Number.NaN, 689_475.7, 1e-6);
  expectRelative(channels.flow?.values[0] ?? Number.NaN, 6.30902e-5, 1e-6);
  expectRelative(channels.oilTemperature?.values[0] ?? Number.NaN, 313.15, 1e-12);
});

it('an empty cell is a missing value; a value outside the bench channel is marked, in whatever unit it comes', () => {
  const { channels } = read('elapsed [s],flow [m3/h],speed [r/min]\n0,,600\n1,1,600\n2,3,600\n');
  // The bench's flow ends at 40 l/min = 2.4 m³/h.
  expect([...(channels.flow?.quality ?? [])]).toEqual([QUALITY.missing, QUALITY.good, QUALITY.outOfRange]);
  expect(channels.flow?.values[0]).toBeNaN();
});

it('refuses what is not a number by line and column', () => {
  expect(refusal('elapsed [s],flow [l/min]\n0,1\n1,abc\n')).toMatch(/line 3.*flow \[l\/min\].*"abc"/);
  expect(refusal('elapsed [s],flow [l/min]\n0,1\n,2\n')).toMatch(/line 3.*elapsed \[s\]/);
  expect(refusal('elapsed [s],flow [l/min]\n0,"1,5"\n')).toMatch(/line 2.*flow.*decimal point/);
  expect(refusal('elapsed [s],flow [l/min]\n0,1\ninf,2\n')).toMatch(/line 3.*elapsed/);
});

it('refuses a time that goes back', () => {
  expect(refusal('elapsed [s],flow [l/min]\n0,1\n2,1\n1,1\n')).toMatch(/line 4.*1 s.*2 s/);
});

it('refuses headings that it does not know, and says which it knows', () => {
  expect(refusal('elapsed [s],Flow [l/min]\n0,1\n')).toMatch(/"Flow \[l\/min\]".*suctionPressure/);
  expect(refusal('elapsed [s],flow\n0,1\n')).toMatch(/"flow".*unit in brackets/);
  expect(refusal('elapsed [s],flow [furlong]\n0,1\n')).toMatch(/"furlong" is no unit of flow.*l\/min/);
  expect(refusal('elapsed [s],flow [bar(g)]\n0,1\n')).toMatch(/"bar\(g\)" is no unit of flow/);
  expect(refusal('elapsed [s],deliveryPressure [bar]\n0,1\n')).toMatch(/"bar" is no unit of pressure/);
  expect(refusal('flow [l/min]\n1\n')).toMatch(/elapsed \[s\]/);
  expect(refusal('elapsed [s]\n1\n')).toMatch(/at least one channel/);
  expect(refusal('elapsed [s],flow [l/min],flow [m3/h]\n1,1,1\n')).toMatch(/stands twice/);
  expect(refusal('')).toMatch(/line 1/);
  expect(refusal('elapsed [s],flow [l/min]\n')).toMatch(/line 2/);
});

it('refuses ragged and torn rows by their line', () => {
  expect(refusal('elapsed [s],flow [l/min]\n0,1\n1\n')).toMatch(/line 3/);
  expect(refusal('elapsed [s],flow [l/min]\n0,1\n1,2,3\n')).toMatch(/line 3/);
  expect(refusal('elapsed [s],flow [l/min]\n0,"1\n')).toMatch(/line/i);
});
