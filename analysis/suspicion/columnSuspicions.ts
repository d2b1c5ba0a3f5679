import { CHANNELS, type ChannelName } from '../channels.ts';
import { printedUnit } from '../formatStated.ts';
import type { Column, Readings } from '../readings.ts';
import type { BenchChannel } from '../records/benchRecord.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { Finding } from '../result.ts';
import { HOLD_CHANNELS } from '../steady/holdSearch.ts';
import { readingFrom, unitOf } from '../units.ts';
import {
  type ColumnSample,
  type Plateau,
  plateauAt,
  repeatShare,
  type SamplePlaces,
  sampleColumn,
  samplePlaces,
} from './columnSample.ts';
import { converterLimit } from './converterLimit.ts';
import { frozenStretch, isNothing, isSilent } from './frozen.ts';

/** Fewer readings with the shaft turning say nothing of a sensor [-]. */
const LEAST_SAMPLED = 100;

/** A heap is a clipped signal where it is so many times as high as the next value, and the rest repeats itself this seldom [1]. */
const LEAST_HEAP_RATIO = 10;
const MOST_REPEAT_SHARE = 0.2;

/** Fewer readings beside the heap do not show how the signal moves [-]. */
const LEAST_BESIDE = 50;

function severityOf(channel: ChannelName): Finding['severity'] {
  return HOLD_CHANNELS.some((candidate) => candidate === channel) ? 'unfit' : 'warning';
}

/** A value as the instrument says it. */
function spoken(entry: BenchChannel, run: RunRecord, valueSi: number): string {
  const reading = readingFrom(valueSi, unitOf(entry.unit), run.setUp.barometerPa.value);
  return `${Number(reading.toPrecision(5))} ${printedUnit(entry.unit)}`;
}

function percent(count: number, of: number): string {
  return `${((100 * count) / of).toPrecision(2)} %`;
}

function isClipped(entry: BenchChannel, run: RunRecord, sample: ColumnSample, plateau: Plateau): boolean {
  if (isNothing(entry, plateau.value)) return false;
  const beside = repeatShare(sample, plateau.value);
  if (beside.ofCount === 0) {
    const reading = readingFrom(plateau.value, unitOf(entry.unit), run.setUp.barometerPa.value);
    const limit = plateau.end === 'highest' ? entry.range.max : entry.range.min;
    return Math.abs(reading - limit) <= 1e-9 * Math.abs(entry.range.max - entry.range.min);
  }
  return (
    beside.ofCount >= LEAST_BESIDE &&
    beside.share <= MOST_REPEAT_SHARE &&
    plateau.count >= LEAST_HEAP_RATIO * plateau.nextCount
  );
}

/** What is heaped up at the ends of a column: the converter's limit, or a limit of the instrument. */
function heapFinding(entry: BenchChannel, run: RunRecord, sample: ColumnSample): Finding | null {
  const { label } = CHANNELS[entry.channel];
  const severity = severityOf(entry.channel);
  for (const end of ['highest', 'lowest'] as const) {
    const plateau = plateauAt(sample, end);
    if (plateau === null) continue;
    const share = percent(plateau.count, sample.values.length);
    const value = spoken(entry, run, plateau.value);
    const code = converterLimit(entry, run, plateau.value, sample.values);
    if (code !== null) {
      return {
        code: 'SENSOR_SATURATED',
        severity,
        text: `In ${share} of the readings '${label}' stood at ${code} counts (${value}), the last number that its converter can say: what was measured there lies beyond it. Choose a wider range or a smaller gain, or look for a broken wire, and repeat the run.`,
      };
    }
    if (isClipped(entry, run, sample, plateau)) {
      return {
        code: 'SENSOR_CLIPPED',
        severity,
        text: `In ${share} of the readings '${label}' said exactly ${value} and never ${end === 'highest' ? 'more' : 'less'}: the instrument is at the end of its range, and what was measured there lies beyond it. Choose an instrument or a range that reaches further and repeat the run.`,
      };
    }
  }
  return null;
}

function columnFinding(
  entry: BenchChannel,
  run: RunRecord,
  readings: Readings,
  column: Column,
  places: SamplePlaces,
): Finding | null {
  const { label } = CHANNELS[entry.channel];
  if (isSilent(entry.channel, run, readings)) {
    return {
      code: 'SENSOR_FROZEN',
      severity: severityOf(entry.channel),
      text: `'${label}' said nothing but 0 through the whole run while the pump worked: look for a broken wire, a blocked meter or a pick-up too far from its wheel, and repeat the run.`,
    };
  }
  const sample = sampleColumn(column, places);
  if (sample.values.length < LEAST_SAMPLED) return null;
  const heap = heapFinding(entry, run, sample);
  if (heap !== null) return heap;
  const still = frozenStretch(entry, run, readings, sample);
  if (still === null) return null;
  const fromS = (sample.atS[still.first] ?? 0).toFixed(0);
  const toS = (sample.atS[still.end - 1] ?? 0).toFixed(0);
  return {
    code: 'SENSOR_FROZEN',
    severity: severityOf(entry.channel),
    text: `'${label}' said ${spoken(entry, run, still.value)} without the least change from ${fromS} s to ${toS} s while the pump worked: it did not measure. Look for a stuck instrument, a transmitter that hangs or a bench that repeats its last value, and repeat the run.`,
  };
}

/**
 * Columns that look like an instrument's failure rather than like a pump: a value that never changes while it must
 * (SENSOR_FROZEN), readings heaped up at one end (SENSOR_CLIPPED), readings at a converter's last code (SENSOR_SATURATED).
 * Judged while the shaft turns, on up to 16 384 readings a column. 'unfit' for the channels that holds rest on, else 'warning'.
 *
 * A coarse instrument is no broken one: where the channel's noise is less than its step, readings repeat themselves, and
 * nothing is said unless another channel shows that it should have moved (frozenStretch).
 *
 * @param run - bench record in force, kind of run, barometer, zero check [-]
 * @param readings - the run [n readings, oldest first]
 * @returns at most one finding a channel; none on a healthy run [-]
 *
 * Source: common practice, no source; the limits are the house's.
 */
export function columnSuspicions(run: RunRecord, readings: Readings): readonly Finding[] {
  const places = samplePlaces(readings.channels.speed ?? null, readings.elapsedS);
  return run.bench.channels.flatMap((entry): Finding[] => {
    const column = readings.channels[entry.channel];
    const finding = column === undefined ? null : columnFinding(entry, run, readings, column, places);
    return finding === null ? [] : [finding];
  });
}
