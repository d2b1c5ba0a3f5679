import { CHANNELS, type ChannelName } from '../channels.ts';
import type { Readings } from '../readings.ts';
import type { BenchChannel } from '../records/benchRecord.ts';
import type { RunRecord } from '../records/runRecord.ts';
import { siDifferenceFrom, unitOf } from '../units.ts';
import { type ColumnSample, longestStillStretch, repeatShare, type StillStretch } from './columnSample.ts';

/** Nothing shorter is called frozen [s, readings looked at]. */
const LEAST_DURATION_S = 5;
const LEAST_READINGS = 20;

/** An instrument whose noise is many steps wide hardly ever repeats a reading by itself: below this share [1] of so many [-]. */
const LIVELY_REPEAT_SHARE = 0.02;
const LEAST_BESIDE = 50;

/** What moves a channel, and by how much of its largest value it must have moved [1]. */
const MOVED_BY: Readonly<
  Partial<Record<ChannelName, readonly { readonly by: ChannelName; readonly share: number }[]>>
> = {
  flow: [{ by: 'speed', share: 0.2 }],
  deliveryPressure: [{ by: 'speed', share: 0.2 }],
  suctionPressure: [{ by: 'flow', share: 0.5 }],
  torque: [{ by: 'deliveryPressure', share: 0.5 }],
  motorPower: [
    { by: 'deliveryPressure', share: 0.5 },
    { by: 'speed', share: 0.2 },
  ],
};

/** A stated step above this share of the range hides what another channel does to it [1]. */
const COARSE_STEP_SHARE = 0.01;
/** The suction side moves by little: only a stated step below this share is fine enough to show it [1]. */
const COARSE_STEP_SHARE_SUCTION = 0.0005;

/** Below this share of the range [1] the valve is open, and no speed moves the gauge. */
const OPEN_VALVE_SHARE = 0.02;

/** Steps so fine that a working pump moves them within so long: relative to the value [1], in kelvin, in seconds. */
const FINE_SHARE = 1e-4;
const FINE_STEP_K = 0.01;
const FINE_DURATION_S = 30;
const FINE_DURATION_TEMPERATURE_S = 120;

/** Kinds of run in which delivery pressure and flow follow the shaft at all times. */
function isPumping({ kind }: RunRecord): boolean {
  return kind === 'delivery' || kind === 'relief' || kind === 'suction';
}

/** Nothing is what a healthy instrument may well say for a long time: a dry pump, a drain that does not drip. */
export function isNothing(entry: BenchChannel, valueSi: number): boolean {
  return valueSi === 0 && ['flow', 'speed', 'torque', 'power', 'length'].includes(CHANNELS[entry.channel].quantity);
}

/** Whether a channel moved by a share of its largest value within a stretch of a sample. */
function movedBy(readings: Readings, channel: ChannelName, share: number, sample: ColumnSample, still: StillStretch) {
  const values = readings.channels[channel]?.values;
  if (values === undefined) return false;
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let place = still.first; place < still.end; place += 1) {
    const value = values[sample.index[place] ?? 0] ?? Number.NaN;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return most - least > share * Math.max(Math.abs(least), Math.abs(most));
}

function shouldHaveMoved(
  entry: BenchChannel,
  run: RunRecord,
  readings: Readings,
  sample: ColumnSample,
  still: StillStretch,
): boolean {
  if (!isPumping(run)) return false;
  const span = entry.range.max - entry.range.min;
  if (entry.resolution > COARSE_STEP_SHARE * span) return false;
  if (entry.channel === 'suctionPressure') {
    if (entry.resolution === 0 || entry.resolution > COARSE_STEP_SHARE_SUCTION * span) return false;
  }
  if (entry.channel === 'deliveryPressure') {
    const gaugePa = Math.abs(still.value - run.setUp.barometerPa.value);
    if (gaugePa <= OPEN_VALVE_SHARE * siDifferenceFrom(span, unitOf(entry.unit))) return false;
  }
  return (MOVED_BY[entry.channel] ?? []).some(({ by, share }) => movedBy(readings, by, share, sample, still));
}

/** Whether the stated step is so fine that a live instrument would have shown some of its own noise by now. */
function isTooFineToRepeat(entry: BenchChannel, still: StillStretch): boolean {
  if (entry.resolution === 0 || MOVED_BY[entry.channel] === undefined) {
    const isTemperature = ['oilTemperature', 'caseTemperature', 'meterTemperature'].includes(entry.channel);
    const isFine = entry.resolution > 0 && siDifferenceFrom(entry.resolution, unitOf(entry.unit)) <= FINE_STEP_K;
    return isTemperature && isFine && still.durationS >= FINE_DURATION_TEMPERATURE_S;
  }
  const step = siDifferenceFrom(entry.resolution, unitOf(entry.unit));
  return still.durationS >= FINE_DURATION_S && step <= FINE_SHARE * Math.abs(still.value);
}

/**
 * The stretch in which a channel repeated one value although it cannot have stood still. Three things show it: its own noise, many
 * steps wide in the rest of the run; another channel that moved it (flow follows speed, torque follows pressure); a stated step so
 * fine that a working pump moves it. Where none of them speaks the channel may be coarse or the state really still, and
 * nothing is said: a drive's speed, an oil temperature to a tenth of a kelvin.
 *
 * @param entry - channel of the bench record [-]
 * @param run - kind of run [-]
 * @param readings - the run [n readings, oldest first]
 * @param sample - the channel's, shaft turning [-]
 * @returns the longest such stretch of the sample; null: none [-]
 */
export function frozenStretch(
  entry: BenchChannel,
  run: RunRecord,
  readings: Readings,
  sample: ColumnSample,
): StillStretch | null {
  const still = longestStillStretch(sample);
  if (still === null || still.durationS < LEAST_DURATION_S || still.end - still.first < LEAST_READINGS) return null;
  if (isNothing(entry, still.value)) return null;
  const beside = repeatShare(sample, still.value);
  const isLively = beside.ofCount >= LEAST_BESIDE && beside.share <= LIVELY_REPEAT_SHARE;
  const isFrozen = isLively || isTooFineToRepeat(entry, still) || shouldHaveMoved(entry, run, readings, sample, still);
  return isFrozen ? still : null;
}

/** The least of a range that counts as working [1]. */
const WORKING_SHARE = 0.05;

function largestOf(readings: Readings, channel: ChannelName): number {
  const values = readings.channels[channel]?.values ?? new Float64Array(0);
  const stride = Math.max(1, Math.ceil(values.length / 16_384));
  let largest = Number.NEGATIVE_INFINITY;
  for (let index = 0; index < values.length; index += stride) {
    const value = Math.abs(values[index] ?? Number.NaN);
    if (value > largest) largest = value;
  }
  return largest;
}

/**
 * Whether speed or flow said nothing at all while the other shows that the pump worked. A dry pump turns without flow: there
 * a silent meter proves nothing.
 */
export function isSilent(channel: ChannelName, run: RunRecord, readings: Readings): boolean {
  const other = channel === 'speed' ? 'flow' : channel === 'flow' && isPumping(run) ? 'speed' : null;
  const entry = run.bench.channels.find((candidate) => candidate.channel === other);
  if (other === null || entry === undefined || largestOf(readings, channel) !== 0) return false;
  return largestOf(readings, other) > WORKING_SHARE * siDifferenceFrom(entry.range.max, unitOf(entry.unit));
}
