import { expect, it } from 'vitest';
import { practicePlant, type SensorFault } from '../../../rig/practiceBench/plant.ts';
import { createRandom } from '../../../rig/practiceBench/random.ts';
import { createSensor, type Sensor } from '../../../rig/practiceBench/sensors.ts';

/** A flow meter without errors, noise or lag, read every second; 1 l/min is 1e-3/60 m³/s. */
function meterWith(faults: readonly SensorFault[]): Sensor {
  return createSensor(
    {
      channel: 'flow',
      unit: 'l/min',
      gainStandardUncertainty: 0,
      offsetStandardUncertainty: 0,
      resolution: 0.001,
      lagS: 0,
      stageLagsS: [],
      range: { min: -1, max: 40 },
      noise: 0,
    },
    { barometerPa: 101_325, stepS: 1, startSi: 0, faults },
    createRandom(1, 2),
    createRandom(1, 3),
  );
}

function shown(faults: readonly SensorFault[], trueLPerMin: readonly number[]): string[] {
  const meter = meterWith(faults);
  return trueLPerMin.map((flow) => {
    meter.follow((flow * 1e-3) / 60);
    return meter.read();
  });
}

it('shows the truth when nothing is planted', () => {
  expect(shown([], [0, 1.5, 12])).toEqual(['0.000', '1.500', '12.000']);
});

it('a frozen sensor repeats its last reading from its time on', () => {
  // Read at 1, 2, 3 and 4 s; frozen from 3 s: what it showed at 2 s.
  expect(shown([{ fault: 'stuck', channel: 'flow', fromS: 3 }], [1, 2, 3, 4])).toEqual([
    '1.000',
    '2.000',
    '2.000',
    '2.000',
  ]);
});

it('a sensor frozen from the start repeats its first reading', () => {
  expect(shown([{ fault: 'stuck', channel: 'flow', fromS: 0 }], [1, 2, 3])).toEqual(['1.000', '1.000', '1.000']);
});

it('a clipped sensor shows nothing above its limit', () => {
  expect(shown([{ fault: 'clipped', channel: 'flow', at: 10 }], [9, 10.5, 40])).toEqual(['9.000', '10.000', '10.000']);
});

it('a signed 16-bit counter stops at 32 767 steps', () => {
  // 32 767 · 0.0005 l/min = 16.3835 l/min, shown in steps of 0.001.
  expect(shown([{ fault: 'saturated16Bit', channel: 'flow', unitPerCount: 5e-4 }], [16, 20, 30])).toEqual([
    '16.000',
    '16.384',
    '16.384',
  ]);
});

it('a meter that sends US gallons shows the litres over 3.785411784', () => {
  // NIST SP 811: 1 US gal = 3.785411784 l; 12/3.785411784 = 3.170065.
  expect(shown([{ fault: 'factor', channel: 'flow', factor: 1 / 3.785411784 }], [12])).toEqual(['3.170']);
});

it('a drifting sensor walks off by its rate', () => {
  // 360 l/min an hour is 0.1 l/min a second.
  expect(shown([{ fault: 'drift', channel: 'flow', perHour: 360 }], [5, 5, 5])).toEqual(['5.100', '5.200', '5.300']);
});

it('a loose contact shows one wild reading in so many', () => {
  expect(shown([{ fault: 'wild', channel: 'flow', everyReadings: 3, shows: 39 }], [5, 5, 5, 5, 5, 5, 5])).toEqual([
    '5.000',
    '5.000',
    '39.000',
    '5.000',
    '5.000',
    '39.000',
    '5.000',
  ]);
});

it('refuses faults that make no sense', () => {
  for (const sensors of [
    [{ fault: 'haunted', channel: 'flow' }],
    [{ fault: 'stuck', channel: 'oil', fromS: 1 }],
    [{ fault: 'wild', channel: 'flow', everyReadings: 1, shows: 39 }],
    [{ fault: 'saturated16Bit', channel: 'flow', unitPerCount: 0 }],
  ]) {
    expect(practicePlant.safeParse({ sensors }).success).toBe(false);
  }
});
