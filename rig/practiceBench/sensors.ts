import { z } from 'zod';
import { readingFrom, unitOf } from '../../analysis/units.ts';
import type { PracticeChannel, SensorFault } from './plant.ts';
import type { Random } from './random.ts';

/** What the bench record says of a channel of the practice bench, and what its errors are drawn from. */
export type PracticeSensor = {
  readonly channel: PracticeChannel;
  readonly unit: string;
  /** Relative to the reading [1]. */
  readonly gainStandardUncertainty: number;
  /** In the channel's unit. */
  readonly offsetStandardUncertainty: number;
  readonly resolution: number;
  readonly lagS: number;
  /** First-order lags in series; together {@link lagS}. */
  readonly stageLagsS: readonly number[];
  readonly range: { readonly min: number; readonly max: number };
  /** White noise of one reading, standard deviation, in the channel's unit. */
  readonly noise: number;
};

/** In the order in which they stand in the sentence. Invented instruments of common quality. */
export const PRACTICE_SENSORS: readonly PracticeSensor[] = [
  {
    channel: 'suctionPressure',
    unit: 'bar(a)',
    gainStandardUncertainty: 0.0005,
    offsetStandardUncertainty: 0.0005,
    resolution: 0.0001,
    lagS: 0.02,
    stageLagsS: [0.02],
    range: { min: 0, max: 2 },
    noise: 0.0003,
  },
  {
    channel: 'deliveryPressure',
    unit: 'bar(g)',
    gainStandardUncertainty: 0.0015,
    offsetStandardUncertainty: 0.003,
    resolution: 0.001,
    lagS: 0.02,
    stageLagsS: [0.02],
    range: { min: -1, max: 10 },
    noise: 0.003,
  },
  {
    channel: 'flow',
    unit: 'l/min',
    gainStandardUncertainty: 0.003,
    offsetStandardUncertainty: 0.005,
    resolution: 0.002,
    lagS: 0.06,
    stageLagsS: [0.04, 0.02],
    range: { min: -1, max: 40 },
    noise: 0.01,
  },
  {
    channel: 'speed',
    unit: 'r/min',
    gainStandardUncertainty: 0.0003,
    offsetStandardUncertainty: 0.05,
    resolution: 0.1,
    lagS: 0.02,
    stageLagsS: [0.02],
    range: { min: -10, max: 3000 },
    noise: 0.1,
  },
  {
    channel: 'oilTemperature',
    unit: 'degC',
    gainStandardUncertainty: 0,
    offsetStandardUncertainty: 0.2,
    resolution: 0.01,
    lagS: 1,
    stageLagsS: [1],
    range: { min: -20, max: 120 },
    noise: 0.02,
  },
  {
    channel: 'meterTemperature',
    unit: 'degC',
    gainStandardUncertainty: 0,
    offsetStandardUncertainty: 0.2,
    resolution: 0.01,
    lagS: 1,
    stageLagsS: [1],
    range: { min: -20, max: 120 },
    noise: 0.02,
  },
  {
    channel: 'caseTemperature',
    unit: 'degC',
    gainStandardUncertainty: 0,
    offsetStandardUncertainty: 0.3,
    resolution: 0.01,
    lagS: 2,
    stageLagsS: [2],
    range: { min: -20, max: 120 },
    noise: 0.02,
  },
  {
    channel: 'torque',
    unit: 'N m',
    gainStandardUncertainty: 0.002,
    offsetStandardUncertainty: 0.003,
    resolution: 0.001,
    lagS: 0.02,
    stageLagsS: [0.02],
    range: { min: -20, max: 20 },
    noise: 0.005,
  },
  {
    channel: 'barometer',
    unit: 'mbar(a)',
    gainStandardUncertainty: 0,
    offsetStandardUncertainty: 0.3,
    resolution: 0.01,
    lagS: 1,
    stageLagsS: [1],
    range: { min: 800, max: 1100 },
    noise: 0.02,
  },
];

/** How the gain and offset errors of the instruments are spread; the standard deviation is as stated either way. */
export const errorShape = z.enum(['normal', 'rectangular']);
export type ErrorShape = z.infer<typeof errorShape>;

export type Sensor = {
  readonly follow: (trueSi: number) => void;
  /** The reading as the bench sends it, quantised. */
  readonly read: () => string;
};

/** What stands around a sensor. */
export type SensorConditions = {
  readonly barometerPa: number;
  /** Time between two calls of `follow`. */
  readonly stepS: number;
  /** True value at the start, SI. */
  readonly startSi: number;
  readonly errorShape?: ErrorShape;
  readonly faults?: readonly SensorFault[];
};

const LARGEST_16_BIT_COUNT = 32_767;
const S_PER_HOUR = 3600;

/** A deviate of mean 0 and standard deviation 1 [1]. */
function deviate(random: Random, shape: ErrorShape): number {
  return shape === 'normal' ? random.normal() : Math.sqrt(3) * (2 * random.uniform() - 1);
}

/** What a fault makes of a reading, in the channel's unit; a stuck sensor is stuck elsewhere. */
function faulty(reading: number, fault: SensorFault, elapsedS: number, readingCount: number): number {
  switch (fault.fault) {
    case 'drift':
      return reading + (fault.perHour * elapsedS) / S_PER_HOUR;
    case 'clipped':
      return Math.min(reading, fault.at);
    case 'saturated16Bit':
      return Math.min(reading, LARGEST_16_BIT_COUNT * fault.unitPerCount);
    case 'factor':
      return reading * fault.factor;
    case 'wild':
      return readingCount % fault.everyReadings === 0 ? fault.shows : reading;
    case 'stuck':
      return reading;
  }
}

/**
 * One sensor with errors of its own: lags, then gain and offset error, then noise, what is planted, and quantisation.
 *
 * @param sensor - its stated properties [the channel's own unit]
 * @param conditions - barometer [Pa], time between two calls of `follow` [s], true value at the start [SI], faults
 * @param build - where its gain and offset error are drawn from [-]
 * @param noise - where its noise comes from [-]
 * @returns the sensor
 */
export function createSensor(
  sensor: PracticeSensor,
  conditions: SensorConditions,
  build: Random,
  noise: Random,
): Sensor {
  const { barometerPa, stepS, startSi, errorShape: shape = 'normal', faults = [] } = conditions;
  const unit = unitOf(sensor.unit);
  const gain = 1 + sensor.gainStandardUncertainty * deviate(build, shape);
  const offset = sensor.offsetStandardUncertainty * deviate(build, shape);
  const stages = sensor.stageLagsS.map((lagS) => ({ share: 1 - Math.exp(-stepS / lagS), valueSi: startSi }));
  const decimals = Math.max(0, Math.ceil(-Math.log10(sensor.resolution)));
  const stuckFromS = Math.min(
    ...faults.map((fault) => (fault.fault === 'stuck' ? fault.fromS : Number.POSITIVE_INFINITY)),
  );
  let followedSi = startSi;
  let elapsedS = 0;
  let readingCount = 0;
  let lastText: string | null = null;

  return {
    follow(trueSi) {
      elapsedS += stepS;
      followedSi = trueSi;
      for (const stage of stages) {
        stage.valueSi += stage.share * (followedSi - stage.valueSi);
        followedSi = stage.valueSi;
      }
    },
    read() {
      readingCount += 1;
      if (lastText !== null && elapsedS >= stuckFromS) return lastText;
      const indicated = gain * readingFrom(followedSi, unit, barometerPa) + offset + sensor.noise * noise.normal();
      const reading = faults.reduce((value, fault) => faulty(value, fault, elapsedS, readingCount), indicated);
      lastText = (Math.round(reading / sensor.resolution) * sensor.resolution).toFixed(decimals);
      return lastText;
    },
  };
}
