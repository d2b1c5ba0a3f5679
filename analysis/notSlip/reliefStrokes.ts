import { mean } from 'simple-statistics';
import { CHANNELS } from '../channels.ts';
import { type Column, firstAtOrAfter, QUALITY, type Readings } from '../readings.ts';
import type { BenchRecord } from '../records/benchRecord.ts';

/** A quarter second of a relief run. */
export type StrokePoint = {
  readonly atS: number;
  readonly suctionPressurePa: number;
  readonly deliveryPressurePa: number;
  readonly differentialPressurePa: number;
  /** At the mean speed of the run. */
  readonly flowM3PerS: number;
};

export type ReliefStrokes = {
  /** Valve of the bench being closed, up to and with the turning point; oldest first. */
  readonly up: readonly StrokePoint[];
  /** Valve of the bench being opened again, the turning point left out; oldest first. */
  readonly down: readonly StrokePoint[];
  readonly speedRevPerS: number;
};

const STROKE_CHANNELS = ['speed', 'suctionPressure', 'deliveryPressure', 'flow'] as const;
type StrokeChannel = (typeof STROKE_CHANNELS)[number];

/** Means are taken over this long [s]. */
const BLOCK_S = 0.25;

/** Start and stop of the motor are left out: blocks whose speed differs from the median by more than this share [1]. */
const SPEED_SHARE = 0.02;

function meanBetween(elapsedS: Float64Array, column: Column, fromS: number, toS: number, cursor: number): number {
  let total = 0;
  let count = 0;
  for (let index = cursor; index < elapsedS.length && (elapsedS[index] ?? Number.NaN) < toS; index += 1) {
    if ((elapsedS[index] ?? Number.NaN) < fromS || column.quality[index] !== QUALITY.good) continue;
    total += column.values[index] ?? Number.NaN;
    count += 1;
  }
  return count > 0 ? total / count : Number.NaN;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}

/**
 * Where the bench's valve was furthest shut: high pressure and little flow, Δp/Δp_max − q/q_max at its greatest. Pressure
 * alone does not tell, for when a valve pops it may never come so high again.
 */
function turningIndex(points: readonly StrokePoint[]): number {
  const highestPa = Math.max(...points.map(({ differentialPressurePa }) => Math.abs(differentialPressurePa)));
  const mostM3PerS = Math.max(...points.map(({ flowM3PerS }) => Math.abs(flowM3PerS)));
  const shutness = points.map(
    ({ differentialPressurePa, flowM3PerS }) =>
      (highestPa > 0 ? differentialPressurePa / highestPa : 0) - (mostM3PerS > 0 ? flowM3PerS / mostM3PerS : 0),
  );
  return shutness.indexOf(Math.max(...shutness));
}

/**
 * The strokes of a relief run: quarter-second means while the shaft turned at its speed, split where the bench's valve was
 * furthest shut.
 * Each channel is read so much later as its sensor lags: a first-order lag lets a slow ramp through unchanged but late by
 * its time constant. Flow is brought to the mean speed in proportion.
 *
 * @param readings - of the run [n readings, oldest first]
 * @param bench - whose channels state their lags [s]
 * @returns both strokes and the mean speed, or the channels that are missing [Pa, m³/s, rev/s]
 *
 * Source: first-order lag under a ramp: its steady delay is the time constant (any text on control).
 */
export function reliefStrokes(
  readings: Readings,
  bench: BenchRecord,
): ReliefStrokes | { readonly missing: readonly string[] } {
  const { speed, suctionPressure, deliveryPressure, flow } = readings.channels;
  if (!(speed && suctionPressure && deliveryPressure && flow)) {
    const missing = STROKE_CHANNELS.filter((channel) => readings.channels[channel] === undefined);
    return { missing: missing.map((channel) => CHANNELS[channel].label) };
  }
  const columns = { speed, suctionPressure, deliveryPressure, flow };
  const { elapsedS } = readings;
  const lagOf = (channel: StrokeChannel): number =>
    bench.channels.find((candidate) => candidate.channel === channel)?.lagS ?? 0;
  const blockMean = (channel: StrokeChannel, fromS: number): number => {
    const startS = fromS + lagOf(channel);
    return meanBetween(elapsedS, columns[channel], startS, startS + BLOCK_S, firstAtOrAfter(elapsedS, startS));
  };
  const blockCount = Math.floor((elapsedS.at(-1) ?? 0) / BLOCK_S);
  const blocks = Array.from({ length: blockCount }, (_, index) => {
    const fromS = index * BLOCK_S;
    const suctionPressurePa = blockMean('suctionPressure', fromS);
    const deliveryPressurePa = blockMean('deliveryPressure', fromS);
    return {
      atS: fromS + BLOCK_S / 2,
      speedRevPerS: blockMean('speed', fromS),
      suctionPressurePa,
      deliveryPressurePa,
      differentialPressurePa: deliveryPressurePa - suctionPressurePa,
      flowM3PerS: blockMean('flow', fromS),
    };
  }).filter((block) => Object.values(block).every(Number.isFinite));
  const usualRevPerS = median(blocks.map(({ speedRevPerS }) => speedRevPerS).filter((speed) => speed > 0));
  const turning = blocks.filter(
    ({ speedRevPerS }) => Math.abs(speedRevPerS - usualRevPerS) <= SPEED_SHARE * usualRevPerS,
  );
  if (turning.length === 0) return { up: [], down: [], speedRevPerS: 0 };
  const meanRevPerS = mean(turning.map(({ speedRevPerS }) => speedRevPerS));
  const points = turning.map(
    ({ speedRevPerS, ...block }): StrokePoint => ({
      ...block,
      flowM3PerS: (block.flowM3PerS * meanRevPerS) / speedRevPerS,
    }),
  );
  const turn = turningIndex(points);
  return { up: points.slice(0, turn + 1), down: points.slice(turn + 1), speedRevPerS: meanRevPerS };
}
