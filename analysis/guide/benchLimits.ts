import type { ChannelName } from '../channels.ts';
import type { RunRecord } from '../records/runRecord.ts';
import { siFrom, unitOf } from '../units.ts';

/** What a channel should not pass while a run is recorded; passing it warns and stops nothing. */
export type BenchLimit = {
  /** The same for as long as the run lasts. */
  readonly id: string;
  readonly channel: ChannelName;
  /** In the channel's SI unit; one of the two. */
  readonly atMost: number | null;
  readonly atLeast: number | null;
  /** Whose limit it is: 'the fastest speed of this pump'. */
  readonly whose: string;
};

/**
 * Whether a value lies beyond a limit.
 *
 * @param limit - of a channel [-]
 * @param value - of that channel [its SI unit]
 * @returns whether it is passed; a value that stands at the limit has not passed it [-]
 */
export function isPast(limit: BenchLimit, value: number): boolean {
  const { atMost, atLeast } = limit;
  return (atMost !== null && value > atMost) || (atLeast !== null && value < atLeast);
}

/** The shaft may run so much faster than its record says before it is said: instruments scatter [1]. */
const OVER_SPEED = 1.03;

/** A relief valve that is set to a pressure should not let the gauge climb so far beyond it [1]. */
const OVER_RELIEF = 1.1;

/** Deepest inlet pressure of a pump full of oil, absolute: a house limit, no source [Pa]. */
const DEEPEST_SUCTION_PA = 3e4;

/** Warmer than this by so much, a dry start is to be ended: a house limit from common practice, no source [K]. */
const DRY_CASE_RISE_K = 10;

type Watched = Pick<RunRecord, 'kind' | 'pump' | 'bench' | 'setUp'>;

function upTo(channel: ChannelName, id: string, atMost: number, whose: string): BenchLimit {
  return { id, channel, atMost, atLeast: null, whose };
}

/** Ends of an instrument's range: beyond them it says nothing. Lower ends matter for nothing that hurts. */
function rangeLimits({ bench, setUp }: Watched): readonly BenchLimit[] {
  return bench.channels.map(({ channel, unit, range }) =>
    upTo(
      channel,
      `range.${channel}`,
      siFrom(range.max, unitOf(unit), setUp.barometerPa.value),
      'the end of the instrument’s range',
    ),
  );
}

/**
 * What is watched during a run: the pump's speed range, its relief valve, the inlet of a pump full of oil, and the range of
 * every instrument. The nearest limit of a channel counts.
 *
 * @param run - kind, pump, bench and barometer [-]
 * @returns limits in the channels' own SI units, one above and one below for a channel at most [Pa, rev/s, …]
 */
export function benchLimits(run: Watched): readonly BenchLimit[] {
  const { pump, setUp, kind } = run;
  const limits: BenchLimit[] = [
    upTo('speed', 'fastest', OVER_SPEED * pump.speedRangeRevPerS.max, 'the fastest speed of this pump'),
    ...rangeLimits(run),
  ];
  if (pump.reliefValveSettingPa !== null && kind !== 'relief') {
    const absolutePa = setUp.barometerPa.value + OVER_RELIEF * pump.reliefValveSettingPa;
    limits.push(upTo('deliveryPressure', 'relief', absolutePa, 'a tenth over the setting of the relief valve'));
  }
  if (kind === 'delivery' || kind === 'relief') {
    limits.push({
      id: 'suction',
      channel: 'suctionPressure',
      atMost: null,
      atLeast: DEEPEST_SUCTION_PA,
      whose: 'a house limit: oil boils its air out below it',
    });
  }
  return nearest(limits);
}

/** Of the upper limits of a channel the lowest. */
function nearest(limits: readonly BenchLimit[]): readonly BenchLimit[] {
  return limits.filter(
    ({ channel, atMost, id }) =>
      atMost === null ||
      !limits.some(
        (other) =>
          other.id !== id &&
          other.channel === channel &&
          other.atMost !== null &&
          (other.atMost < atMost || (other.atMost === atMost && other.id < id)),
      ),
  );
}

/**
 * The limit on the case of a pump that turns dry, known once its first reading is.
 *
 * @param kind - of the run [-]
 * @param firstCaseTemperatureK - of the case before the start [K]
 * @returns ten kelvin above; null where the pump does not turn dry [K]
 *
 * @example dryCaseLimit('dryLift', 293).atMost // 303
 */
export function dryCaseLimit(kind: RunRecord['kind'], firstCaseTemperatureK: number): BenchLimit | null {
  if (kind !== 'dryLift' && kind !== 'blanked') return null;
  return upTo(
    'caseTemperature',
    'dryCase',
    firstCaseTemperatureK + DRY_CASE_RISE_K,
    'a house limit: 10 K above its start ends a dry run',
  );
}
