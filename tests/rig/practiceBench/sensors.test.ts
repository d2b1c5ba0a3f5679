import { expect, it } from 'vitest';
import { createRandom } from '../../../rig/practiceBench/random.ts';
import { createSensor, PRACTICE_SENSORS, type PracticeSensor } from '../../../rig/practiceBench/sensors.ts';

const CONDITIONS = { barometerPa: 101_325, stepS: 1e-3, startSi: 0 };

function standardDeviation(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
}

function flowSensor(): PracticeSensor {
  const found = PRACTICE_SENSORS.find((sensor) => sensor.channel === 'flow');
  if (found === undefined) throw new Error('the practice bench has a flow meter');
  return found;
}

it('draws normal deviates with mean 0 and standard deviation 1 (seeds 1, 77, 4096)', () => {
  // 20 000 deviates: the mean's standard deviation is 0.007, that of the standard deviation 0.005; four of each allowed.
  for (const seed of [1, 77, 4096]) {
    const random = createRandom(seed, 9);
    const values = Array.from({ length: 20_000 }, random.normal);
    expect(Math.abs(values.reduce((sum, value) => sum + value, 0) / values.length)).toBeLessThan(0.028);
    expect(Math.abs(standardDeviation(values) - 1)).toBeLessThan(0.02);
  }
});

it('draws gain and offset errors with the standard uncertainties that it states (seeds 0 to 1999)', () => {
  // Read without noise and steps at 0 and at 12 l/min (2e-4 m³/s): offset u 0.005 l/min, gain u 0.3 %. The estimate of a
  // standard deviation from 2000 draws is good to 1/√4000 = 1.6 %; four of that allowed.
  const offsets: number[] = [];
  const gains: number[] = [];
  for (let seed = 0; seed < 2000; seed++) {
    const sensor = createSensor(
      { ...flowSensor(), noise: 0, resolution: 1e-9, stageLagsS: [] },
      CONDITIONS,
      createRandom(seed, 2),
      createRandom(seed, 3),
    );
    sensor.follow(0);
    const zero = Number(sensor.read());
    sensor.follow(2e-4);
    offsets.push(zero);
    gains.push((Number(sensor.read()) - zero) / 12 - 1);
  }
  expect(Math.abs(standardDeviation(offsets) / 0.005 - 1)).toBeLessThan(0.065);
  expect(Math.abs(standardDeviation(gains) / 0.003 - 1)).toBeLessThan(0.065);
});

it('follows a step in flow with a mean delay of the stated 60 ms', () => {
  // The area between a unit step and the response of first-order lags in series is the sum of their lags.
  const sensor = createSensor(
    { ...flowSensor(), noise: 0, gainStandardUncertainty: 0, offsetStandardUncertainty: 0, resolution: 1e-9 },
    CONDITIONS,
    createRandom(1, 2),
    createRandom(1, 3),
  );
  let delayS = 0;
  for (let step = 0; step < 2000; step++) {
    sensor.follow(1e-3 / 60);
    delayS += (1 - Number(sensor.read())) * 1e-3;
  }
  expect(Math.abs(delayS - 0.06)).toBeLessThan(0.002);
});

it('states lags that add up, in whole table', () => {
  for (const sensor of PRACTICE_SENSORS) {
    expect(sensor.stageLagsS.reduce((sum, lagS) => sum + lagS, 0)).toBeCloseTo(sensor.lagS, 12);
  }
});

it('reads in whole steps of its resolution', () => {
  const random = createRandom(5, 3);
  for (const stated of PRACTICE_SENSORS) {
    const sensor = createSensor(stated, { ...CONDITIONS, startSi: 300 }, createRandom(5, 2), random);
    for (let reading = 0; reading < 20; reading++) {
      const steps = Number(sensor.read()) / stated.resolution;
      expect(Math.abs(steps - Math.round(steps))).toBeLessThan(1e-3);
    }
  }
});
