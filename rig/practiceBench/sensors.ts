import { readingFrom, unitOf } from '../../analysis/units.ts';
import type { Random } from './random.ts';

/** What the bench record says of a channel of the practice bench, and what its errors are drawn from. */
export type PracticeSensor = {
  readonly channel: 'suctionPressure' | 'deliveryPressure' | 'flow' | 'speed' | 'oilTemperature';
  readonly unit: string;
  /** Relative to the reading, normal [1]. */
  readonly gainStandardUncertainty: number;
  /** In the channel's unit, normal. */
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
];

export type Sensor = {
  readonly follow: (trueSi: number) => void;
  /** The reading as the bench sends it, quantised. */
  readonly read: () => string;
};

/**
 * One sensor with errors of its own: lags, then gain and offset error, then noise, then quantisation.
 *
 * @param sensor - its stated properties [the channel's own unit]
 * @param conditions - barometer [Pa], time between two calls of `follow` [s], true value at the start [SI]
 * @param build - where its gain and offset error are drawn from [-]
 * @param noise - where its noise comes from [-]
 * @returns the sensor
 */
export function createSensor(
  sensor: PracticeSensor,
  conditions: { readonly barometerPa: number; readonly stepS: number; readonly startSi: number },
  build: Random,
  noise: Random,
): Sensor {
  const unit = unitOf(sensor.unit);
  const gain = 1 + sensor.gainStandardUncertainty * build.normal();
  const offset = sensor.offsetStandardUncertainty * build.normal();
  const stages = sensor.stageLagsS.map((lagS) => ({
    share: 1 - Math.exp(-conditions.stepS / lagS),
    valueSi: conditions.startSi,
  }));
  const decimals = Math.max(0, Math.ceil(-Math.log10(sensor.resolution)));
  let followedSi = conditions.startSi;

  return {
    follow(trueSi) {
      followedSi = trueSi;
      for (const stage of stages) {
        stage.valueSi += stage.share * (followedSi - stage.valueSi);
        followedSi = stage.valueSi;
      }
    },
    read() {
      const reading = gain * readingFrom(followedSi, unit, conditions.barometerPa) + offset;
      const steps = Math.round((reading + sensor.noise * noise.normal()) / sensor.resolution);
      return (steps * sensor.resolution).toFixed(decimals);
    },
  };
}
