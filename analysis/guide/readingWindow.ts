import { CHANNEL_NAMES, type ChannelName } from '../channels.ts';
import { QUALITY, type Readings } from '../readings.ts';

/** One reading in SI, as the decoder hands it on; a channel that the bench lacks is absent. */
export type ReadingRow = {
  readonly atS: number;
  readonly values: Readonly<Partial<Record<ChannelName, number>>>;
  readonly quality: Readonly<Partial<Record<ChannelName, number>>>;
};

/** Columns from rows, the first row's time as zero [n rows, oldest first]. */
function readingsFromRows(rows: readonly ReadingRow[]): Readings {
  const startS = rows[0]?.atS ?? 0;
  const channels: Partial<Record<ChannelName, { values: Float64Array; quality: Uint8Array }>> = {};
  for (const channel of CHANNEL_NAMES) {
    if (!rows.some((row) => row.values[channel] !== undefined)) continue;
    channels[channel] = {
      values: Float64Array.from(rows, (row) => row.values[channel] ?? Number.NaN),
      quality: Uint8Array.from(rows, (row) => row.quality[channel] ?? QUALITY.missing),
    };
  }
  return { elapsedS: Float64Array.from(rows, (row) => row.atS - startS), channels, clock: 'device', clockTie: null };
}

/** The last readings of a live run, bounded in time, so that the functions of the finished run can look at them. */
export class ReadingWindow {
  private rows: ReadingRow[] = [];

  constructor(private readonly keepS: number) {}

  push(row: ReadingRow): void {
    this.rows.push(row);
    const oldestS = row.atS - this.keepS;
    // Dropped in one piece once a quarter is too old: shifting a long array at every reading would cost its length.
    if ((this.rows[Math.floor(this.rows.length / 4)]?.atS ?? row.atS) < oldestS) {
      this.rows = this.rows.filter(({ atS }) => atS >= oldestS);
    }
  }

  lastS(): number {
    return this.rows.at(-1)?.atS ?? 0;
  }

  last(): ReadingRow | null {
    return this.rows.at(-1) ?? null;
  }

  since(atS: number): Readings {
    return readingsFromRows(this.rows.filter((row) => row.atS >= atS));
  }
}
