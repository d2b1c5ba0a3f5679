import { appliedZero } from '../../analysis/calibration/appliedZero.ts';
import { type Column, QUALITY, type Readings } from '../../analysis/readings.ts';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { ZeroCheck } from '../../analysis/records/runRecord.ts';
import { siAtZeroReading, siDifferenceFrom, siFrom, unitOf } from '../../analysis/units.ts';
import { CsvError } from './csvError.ts';
import type { ChannelHeading, Heading } from './csvHeadings.ts';
import { GrowingBytes, GrowingDoubles } from './growing.ts';

/** What stands between a cell and its place in the readings. */
export type CsvScales = {
  readonly bench: BenchRecord | null;
  readonly barometerPa: number;
  readonly zeroCheck: ZeroCheck | null;
};

type ChannelColumn = {
  readonly heading: ChannelHeading;
  /** Bench channel's range in SI; the file may be in another unit than the bench. */
  readonly min: number;
  readonly max: number;
  /** Taken off, in SI. */
  readonly zero: number;
  readonly values: GrowingDoubles;
  readonly quality: GrowingBytes;
};

/** Gathers rows of numbers, as they stand in a CSV file, into the columns of {@link Readings}. */
export class CsvColumns {
  private readonly elapsedS = new GrowingDoubles();
  private readonly channels: readonly ChannelColumn[];
  private firstS = Number.NaN;
  private lastS = Number.NEGATIVE_INFINITY;

  constructor(
    private readonly elapsed: Heading,
    channels: readonly ChannelHeading[],
    private readonly columnCount: number,
    private readonly scales: CsvScales,
  ) {
    this.channels = channels.map((heading) => channelColumn(heading, scales));
  }

  /** Makes room for so many rows: the pages are there before they are asked for one by one. */
  reserve(rowCount: number): void {
    this.elapsedS.reserve(rowCount);
    for (const { values, quality } of this.channels) {
      values.reserve(rowCount);
      quality.reserve(rowCount);
    }
  }

  /**
   * @param cells - numbers as they stand in the file, NaN for an empty cell [row by row]
   * @param rowCount - how many rows there are [-]
   * @param lineOf - the line of a row, for messages [-]
   * @throws CsvError naming line and column of a time that is missing or goes back
   */
  add(cells: Float64Array, rowCount: number, lineOf: (row: number) => number): void {
    this.addTimes(cells, rowCount, lineOf);
    for (const channel of this.channels) this.addChannel(channel, cells, rowCount);
  }

  readings(): Readings {
    const columns = this.channels.map(({ heading, values, quality }): [string, Column] => [
      heading.channel,
      { values: values.taken(), quality: quality.taken() },
    ]);
    return {
      elapsedS: this.elapsedS.taken(),
      channels: Object.fromEntries(columns),
      clock: 'device',
      clockTie: null,
    };
  }

  private addTimes(cells: Float64Array, rowCount: number, lineOf: (row: number) => number): void {
    const { text, index, unit } = this.elapsed;
    const first = this.elapsedS.extend(rowCount);
    const into = this.elapsedS.array;
    if (Number.isNaN(this.firstS)) this.firstS = siFrom(cells[index] ?? Number.NaN, unit, 0);
    const { firstS } = this;
    const { siPerUnit } = unit;
    const siAtZero = siAtZeroReading(unit, 0);
    let { lastS } = this;
    for (let row = 0, at = index; row < rowCount; row += 1, at += this.columnCount) {
      const elapsedS = (cells[at] ?? Number.NaN) * siPerUnit + siAtZero; // siFrom, written out
      if (!(elapsedS >= lastS)) {
        const line = `line ${lineOf(row)}, ${text}`;
        throw new CsvError(
          Number.isNaN(elapsedS)
            ? `${line}: expected a number with a decimal point, got ""`
            : `${line}: ${elapsedS} s stands behind ${lastS} s`,
        );
      }
      lastS = elapsedS;
      into[first + row] = elapsedS - firstS;
    }
    this.lastS = lastS;
  }

  private addChannel(channel: ChannelColumn, cells: Float64Array, rowCount: number): void {
    const { heading, min, max, zero } = channel;
    const { siPerUnit } = heading.unit;
    const siAtZero = siAtZeroReading(heading.unit, this.scales.barometerPa);
    const first = channel.values.extend(rowCount);
    channel.quality.extend(rowCount);
    const values = channel.values.array;
    const quality = channel.quality.array;
    for (let row = 0, at = heading.index; row < rowCount; row += 1, at += this.columnCount) {
      // siFrom, written out; the range is judged by what the sensor itself said, before its zero is taken off.
      const indicated = (cells[at] ?? Number.NaN) * siPerUnit + siAtZero;
      values[first + row] = indicated - zero;
      // Good is 0, as new places are.
      if (!(indicated >= min && indicated <= max)) {
        quality[first + row] = Number.isNaN(indicated) ? QUALITY.missing : QUALITY.outOfRange;
      }
    }
  }
}

function channelColumn(heading: ChannelHeading, { bench, barometerPa, zeroCheck }: CsvScales): ChannelColumn {
  const entry = bench?.channels.find((candidate) => candidate.channel === heading.channel);
  const empty = { heading, values: new GrowingDoubles(), quality: new GrowingBytes() };
  if (entry === undefined) return { ...empty, min: Number.NEGATIVE_INFINITY, max: Number.POSITIVE_INFINITY, zero: 0 };
  const unit = unitOf(entry.unit);
  return {
    ...empty,
    min: siFrom(entry.range.min, unit, barometerPa),
    max: siFrom(entry.range.max, unit, barometerPa),
    zero: siDifferenceFrom(appliedZero(zeroCheck, heading.channel)?.offset ?? 0, unit),
  };
}
