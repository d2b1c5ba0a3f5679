import { CHANNEL_NAMES, type ChannelName } from './channels.ts';
import { extremeRows } from './extremeRows.ts';
import type { Column, Readings } from './readings.ts';

/** Readings thinned out to be drawn, as plain JSON: a missing value is null. */
export type DecimatedReadings = {
  /** Time since the first reading [s], oldest first. */
  readonly elapsedS: readonly number[];
  /** SI values, as many as elapsedS. */
  readonly channels: Readonly<Partial<Record<ChannelName, readonly (number | null)[]>>>;
};

function keptRows(columns: readonly Column[], rowCount: number, maxRows: number): readonly number[] {
  if (rowCount <= maxRows) return Array.from({ length: rowCount }, (_, row) => row);
  const bucketCount = Math.max(1, Math.floor((maxRows - 2) / (3 * columns.length)));
  const kept = new Set([0, rowCount - 1]);
  for (let bucket = 0; bucket < bucketCount; bucket += 1) {
    const from = Math.floor((bucket * rowCount) / bucketCount);
    const to = Math.floor(((bucket + 1) * rowCount) / bucketCount);
    for (const column of columns) {
      const { lowest, highest, missing } = extremeRows(column, from, to);
      for (const row of [lowest, highest, missing]) if (row >= 0) kept.add(row);
    }
  }
  return [...kept].sort((a, b) => a - b);
}

/**
 * Thins readings to be drawn: whole rows are kept, so that no value moves in time. The record is cut into buckets of
 * equally many rows; of each, every channel keeps the rows of its lowest and highest value and the first one it lacks.
 * First and last row always stay. Nothing is averaged and nothing is made up.
 *
 * @param readings - a run's readings [SI, oldest first]
 * @param maxRows - most rows to keep, at least 2 + 3 × the number of channels [-]
 * @returns the kept rows, at most maxRows [SI, oldest first]
 * @throws RangeError if maxRows is too small for one bucket
 *
 * Source: no published source; minimum and maximum of each bucket, as oscilloscopes draw long records.
 */
export function decimate(readings: Readings, maxRows: number): DecimatedReadings {
  const present = CHANNEL_NAMES.flatMap((name) => {
    const column = readings.channels[name];
    return column === undefined ? [] : [{ name, column }];
  });
  const leastRows = 2 + 3 * present.length;
  if (!(maxRows >= leastRows)) throw new RangeError(`maxRows: ${maxRows}, expected ${leastRows} or more`);
  const rows = keptRows(
    present.map(({ column }) => column),
    readings.elapsedS.length,
    maxRows,
  );
  const channels: Partial<Record<ChannelName, readonly (number | null)[]>> = {};
  for (const { name, column } of present) {
    channels[name] = rows.map((row) => {
      const value = column.values[row] ?? Number.NaN;
      return Number.isNaN(value) ? null : value;
    });
  }
  return { elapsedS: rows.map((row) => readings.elapsedS[row] ?? 0), channels };
}
