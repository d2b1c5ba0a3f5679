import { median } from 'simple-statistics';
import type { ClockTie } from '../readings.ts';
import type { Finding } from '../result.ts';

/** The bench's clock along the host's. */
export type ClockLine = {
  /** Host's clock at which the first reading would have come by the quickest way [µs]. */
  readonly firstHostUs: number;
  /** Seconds of the bench in a second of the host, the speed-up of a practice bench included [1]. */
  readonly benchPerHost: number;
  /** Median delay of a line beyond the quickest, on the host's clock [s]. */
  readonly medianDelayS: number;
};

/** The run is cut into so many blocks of equally many readings; the quickest line of each speaks for it [1]. */
const BLOCKS = 200;

/** Fewer readings, or a shorter time at the host, tell nothing of a clock's rate. */
const LEAST_READINGS = 20;
const LEAST_SPAN_US = 1e6;

/** The median delay is taken from at most so many readings [1]. */
const DELAY_SAMPLES = 10_000;

/** Fractional parts of multiples of this spread evenly and keep step with nothing periodic [1]. */
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** A clock further off than this is no quartz in order [1]. */
const LARGEST_RATE_ERROR = 1e-3;

type Quickest = { readonly benchUs: number; readonly lagUs: number };

/** The line of each block that came soonest by the bench's clock. */
function quickestLines(deviceUs: Float64Array, arrivalUs: Float64Array, speedUp: number): readonly Quickest[] {
  const count = deviceUs.length;
  const blockCount = Math.min(BLOCKS, Math.floor(count / 2));
  const [firstDeviceUs = 0] = deviceUs;
  const [firstArrivalUs = 0] = arrivalUs;
  return Array.from({ length: blockCount }, (_, block) => {
    const end = Math.floor(((block + 1) * count) / blockCount);
    let best: Quickest = { benchUs: 0, lagUs: Number.POSITIVE_INFINITY };
    for (let index = Math.floor((block * count) / blockCount); index < end; index += 1) {
      const benchUs = ((deviceUs[index] ?? Number.NaN) - firstDeviceUs) / speedUp;
      const lagUs = (arrivalUs[index] ?? Number.NaN) - firstArrivalUs - benchUs;
      if (lagUs < best.lagUs) best = { benchUs, lagUs };
    }
    return best;
  });
}

/** Median of the slopes between all pairs: Theil (1950), Sen (1968). */
function medianSlope(points: readonly Quickest[]): number {
  const slopes: number[] = [];
  for (const [index, later] of points.entries()) {
    for (const earlier of points.slice(0, index)) {
      const spanUs = later.benchUs - earlier.benchUs;
      if (spanUs > 0) slopes.push((later.lagUs - earlier.lagUs) / spanUs);
    }
  }
  return slopes.length === 0 ? 0 : median(slopes);
}

/**
 * The straight line between the bench's clock and the host's. Lines arrive late and never early, so the lag, arrival −
 * device/speed-up, lies on or above a line a + s × device/speed-up. The quickest line of each of 200 blocks touches it nearly; the
 * median of the slopes between all pairs of these gives s, unmoved by a third of blocks that are late as a whole. A second
 * of the bench then lasts (1 + s)/speed-up seconds of the host.
 *
 * @param deviceUs - bench's clock, unwrapped, never going back [n readings, µs]
 * @param arrivalUs - host's monotonic clock when the line came [n readings, µs]
 * @param speedUp - bench seconds in a second of the host: 1 for a real bench, > 0 [1]
 * @returns the line; null where fewer than 20 readings, or less than a second, tell nothing of a rate [-]
 * @throws RangeError if the arrays differ in length or the speed-up is not a number above zero
 *
 * Source: Theil (1950) and Sen (1968), median of pairwise slopes; block minima as lower envelope derived above.
 */
export function clockLine(deviceUs: Float64Array, arrivalUs: Float64Array, speedUp: number): ClockLine | null {
  const count = deviceUs.length;
  if (arrivalUs.length !== count) throw new RangeError(`arrivalUs: ${arrivalUs.length} values beside ${count}`);
  if (!(speedUp > 0 && Number.isFinite(speedUp)))
    throw new RangeError(`speedUp: ${speedUp}, expected a number above zero`);
  const spanUs = (arrivalUs[count - 1] ?? 0) - (arrivalUs[0] ?? 0);
  const deviceSpanUs = (deviceUs[count - 1] ?? 0) - (deviceUs[0] ?? 0);
  if (count < LEAST_READINGS || !(spanUs >= LEAST_SPAN_US) || !(deviceSpanUs / speedUp >= LEAST_SPAN_US)) return null;

  const points = quickestLines(deviceUs, arrivalUs, speedUp);
  const slope = medianSlope(points);
  const leastUs = points.reduce(
    (least, { benchUs, lagUs }) => Math.min(least, lagUs - slope * benchUs),
    Number.POSITIVE_INFINITY,
  );
  const sampleCount = Math.min(count, DELAY_SAMPLES);
  const delaysUs = Float64Array.from({ length: sampleCount }, (_, sample) => {
    const index = sampleCount === count ? sample : Math.floor(((sample * GOLDEN) % 1) * count);
    const benchUs = ((deviceUs[index] ?? Number.NaN) - (deviceUs[0] ?? 0)) / speedUp;
    return (arrivalUs[index] ?? Number.NaN) - (arrivalUs[0] ?? 0) - benchUs * (1 + slope) - leastUs;
  });
  return {
    firstHostUs: (arrivalUs[0] ?? 0) + leastUs,
    benchPerHost: speedUp / (1 + slope),
    medianDelayS: median(Array.from(delaysUs)) / 1e6,
  };
}

/**
 * Puts an instant of the host's clock on the time scale of the readings.
 *
 * @param line - from clockLine [-]
 * @param hostUs - host's monotonic clock [µs]
 * @returns time since the first reading, negative before it [s]
 *
 * @example elapsedAt({ firstHostUs: 1e6, benchPerHost: 20, medianDelayS: 0 }, 3e6) // 40
 */
export function elapsedAt(line: ClockLine, hostUs: number): number {
  return ((hostUs - line.firstHostUs) / 1e6) * line.benchPerHost;
}

/**
 * The bench's clock held against the host's: rate error = bench seconds in a host second / speed-up − 1.
 *
 * @param deviceUs - bench's clock, unwrapped, never going back [n readings, µs]
 * @param arrivalUs - host's monotonic clock when the line came [n readings, µs]
 * @param speedUp - bench seconds in a second of the host: 1 for a real bench, > 0 [1]
 * @param jumpCount - jumps that the decoder bridged [1]
 * @returns the tie; null where the readings tell nothing of a rate [-]
 * @throws RangeError as clockLine
 */
export function tieClocks(
  deviceUs: Float64Array,
  arrivalUs: Float64Array,
  speedUp: number,
  jumpCount = 0,
): ClockTie | null {
  const line = clockLine(deviceUs, arrivalUs, speedUp);
  if (line === null) return null;
  return { rateError: line.benchPerHost / speedUp - 1, medianDelayS: line.medianDelayS, jumpCount };
}

/**
 * What the tie says of the bench's clock: off by more than a part in a thousand, all times, flows counted per time and
 * speeds of the bench are off by as much.
 *
 * @param tie - from tieClocks; null: nothing to say [-]
 * @param isPractice - a practice bench that cannot keep its speed-up has no wrong clock [-]
 * @returns none, or the warning CLOCK_RATE [-]
 */
export function clockFindings(tie: ClockTie | null, isPractice: boolean): readonly Finding[] {
  if (tie === null || isPractice || Math.abs(tie.rateError) <= LARGEST_RATE_ERROR) return [];
  const percent = (100 * Math.abs(tie.rateError)).toFixed(2);
  return [
    {
      code: 'CLOCK_RATE',
      severity: 'warning',
      text: `The bench's clock runs ${percent} % ${tie.rateError > 0 ? 'fast' : 'slow'} against this computer's: a flow or speed that the bench counts by its own clock is off by as much. Have the clock of the bench looked at.`,
    },
  ];
}
