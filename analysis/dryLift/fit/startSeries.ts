import { mean } from 'simple-statistics';
import { QUALITY, type Readings } from '../../readings.ts';
import { recordedSpeed } from '../model/speedCourse.ts';
import type { StartMoments } from './startMoments.ts';

/** Means of the speed: short while the motor runs up, long when it has [s], share of the running speed [1]. */
const SPEED_RAMP_MEAN_S = 0.015;
const SPEED_SETTLING_MEAN_S = 0.1;
const SPEED_MEAN_S = 0.5;
const RUN_UP_SHARE = 0.99;
const SETTLING_S = 2;

type Series = { readonly timesS: number[]; readonly values: number[] };

export function goodSeries(
  readings: Readings,
  channel: 'suctionPressure' | 'speed',
  fromS: number,
  untilS: number,
): Series {
  const series: Series = { timesS: [], values: [] };
  const column = readings.channels[channel];
  if (column === undefined) return series;
  for (const [index, quality] of column.quality.entries()) {
    const timeS = readings.elapsedS[index] ?? Number.NaN;
    if (quality !== QUALITY.good || !(timeS >= fromS && timeS <= untilS)) continue;
    series.timesS.push(timeS);
    series.values.push(column.values[index] ?? Number.NaN);
  }
  return series;
}

export type Mean = { readonly timeS: number; readonly value: number; readonly count: number };

/** Means over stretches whose length may change with time. */
export function meansOf({ timesS, values }: Series, widthAtS: (timeS: number) => number): readonly Mean[] {
  const means: Mean[] = [];
  let first = 0;
  for (let index = 1; index <= values.length; index += 1) {
    const fromS = timesS[first] ?? 0;
    if (index < values.length && (timesS[index] ?? 0) - fromS < widthAtS(fromS)) continue;
    means.push({
      timeS: mean(timesS.slice(first, index)),
      value: mean(values.slice(first, index)),
      count: index - first,
    });
    first = index;
  }
  return means;
}

/**
 * Speed course from a moment before the motor start on. While it runs up, the tachometer's lag is taken off as n + τ dn/dt;
 * then it is averaged, and the lag only shifts it.
 */
export function speedCourse(
  readings: Readings,
  { runningRevPerS, untilS }: StartMoments,
  originS: number,
  lagS: number,
): (elapsedS: number) => number {
  const series = goodSeries(readings, 'speed', originS - SPEED_RAMP_MEAN_S, untilS + lagS);
  const runUpS = series.timesS[series.values.findIndex((value) => value >= RUN_UP_SHARE * runningRevPerS)] ?? untilS;
  const means = meansOf(series, (timeS) =>
    timeS < runUpS ? SPEED_RAMP_MEAN_S : timeS < runUpS + SETTLING_S ? SPEED_SETTLING_MEAN_S : SPEED_MEAN_S,
  );
  const atS: number[] = [];
  const speeds: number[] = [];
  for (const [index, { timeS, value }] of means.entries()) {
    const [before, after] = [means[index - 1], means[index + 1]];
    const isRamp = timeS < runUpS && before !== undefined && after !== undefined;
    const risePerS = isRamp ? (after.value - before.value) / (after.timeS - before.timeS) : 0;
    atS.push(timeS - originS - (isRamp ? 0 : lagS));
    speeds.push(Math.max(0, value + lagS * risePerS));
  }
  return recordedSpeed(atS, speeds);
}

/** Noise by successive differences, where nothing was at rest: σ² = Σ (x_{i+1} − x_i)²/(2 (n − 1)). */
export function successiveDeviation(values: readonly number[]): number {
  let squares = 0;
  for (let index = 1; index < values.length; index += 1) {
    squares += ((values[index] ?? 0) - (values[index - 1] ?? 0)) ** 2;
  }
  return Math.sqrt(squares / (2 * Math.max(1, values.length - 1)));
}
