import { CHANNEL_NAMES, type ChannelName } from '../../../analysis/channels.ts';
import type { LiveReading } from '../../api.ts';

/** The strips show this much bench time [s]. */
export const STRIP_SPAN_S = 120;

/** A bench that sends faster than this many readings in the span loses the oldest first. */
const MOST_ROWS = 20_000;

export type StripRows = {
  readonly atS: readonly number[];
  readonly channels: Readonly<Partial<Record<ChannelName, readonly (number | null)[]>>>;
};

/** The last two minutes, bounded; a bench time that goes back is another bench: the strips begin anew. */
export class StripBuffer {
  #rows: LiveReading[] = [];

  add(readings: readonly LiveReading[]): void {
    for (const reading of readings) {
      if (reading.atS < (this.#rows.at(-1)?.atS ?? Number.NEGATIVE_INFINITY)) this.#rows = [];
      this.#rows.push(reading);
    }
    const newestS = this.#rows.at(-1)?.atS ?? 0;
    const tooMany = this.#rows.length - MOST_ROWS;
    const firstKept = this.#rows.findIndex(({ atS }, row) => atS >= newestS - STRIP_SPAN_S && row >= tooMany);
    if (firstKept > 0) this.#rows = this.#rows.slice(firstKept);
  }

  get latest(): LiveReading | null {
    return this.#rows.at(-1) ?? null;
  }

  /** Channels that the bench has. */
  get channelNames(): readonly ChannelName[] {
    const latest = this.latest;
    return latest === null ? [] : CHANNEL_NAMES.filter((name) => latest.values[name] !== undefined);
  }

  /** Columns, time counted back from the newest reading [s, oldest first]. */
  columns(): StripRows {
    const newestS = this.latest?.atS ?? 0;
    const channels: Partial<Record<ChannelName, readonly (number | null)[]>> = {};
    for (const name of this.channelNames) channels[name] = this.#rows.map(({ values }) => values[name] ?? null);
    return { atS: this.#rows.map(({ atS }) => atS - newestS), channels };
  }
}
