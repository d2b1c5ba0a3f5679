import { CHANNEL_NAMES, type ChannelName } from '../../../analysis/channels.ts';
import type { LiveReading } from '../../api.ts';

/** The strips show this much bench time [s]. */
export const STRIP_SPAN_S = 120;

/** Readings are kept as the lowest and the highest of so short a while: as many as a wide screen has dots [s]. */
const PIECE_S = 0.25;
const PIECES = STRIP_SPAN_S / PIECE_S + 1;

/** Lowest and highest of one channel in one while, in the order in which they came. */
type Span = { low: number; lowAtS: number; high: number; highAtS: number };

type Piece = { readonly number: number; readonly spans: Map<ChannelName, Span> };

/**
 * The last two minutes, bounded however fast the bench sends, and no spike lost. A bench time that goes back is another
 * bench: the strips begin anew.
 */
export class StripBuffer {
  #pieces: Piece[] = [];
  #latest: LiveReading | null = null;

  add(readings: readonly LiveReading[]): void {
    for (const reading of readings) {
      if (reading.atS < (this.#latest?.atS ?? Number.NEGATIVE_INFINITY)) this.#pieces = [];
      this.#latest = reading;
      const number = Math.floor(reading.atS / PIECE_S);
      let piece = this.#pieces.at(-1);
      if (piece === undefined || piece.number !== number) {
        piece = { number, spans: new Map() };
        this.#pieces.push(piece);
      }
      for (const name of CHANNEL_NAMES) {
        const value = reading.values[name];
        if (value === undefined || value === null) continue;
        const span = piece.spans.get(name);
        if (span === undefined) {
          piece.spans.set(name, { low: value, lowAtS: reading.atS, high: value, highAtS: reading.atS });
          continue;
        }
        if (value < span.low) {
          span.low = value;
          span.lowAtS = reading.atS;
        }
        if (value > span.high) {
          span.high = value;
          span.highAtS = reading.atS;
        }
      }
    }
    const oldest = Math.floor((this.#latest?.atS ?? 0) / PIECE_S) - PIECES;
    const firstKept = this.#pieces.findIndex(({ number }) => number > oldest);
    if (firstKept > 0) this.#pieces.splice(0, firstKept);
  }

  get latest(): LiveReading | null {
    return this.#latest;
  }

  /** Channels that the bench has. */
  get channelNames(): readonly ChannelName[] {
    const latest = this.latest;
    return latest === null ? [] : CHANNEL_NAMES.filter((name) => latest.values[name] !== undefined);
  }

  /** Times of the rows, two a while, counted back from the newest reading [s, oldest first]. */
  get atS(): readonly number[] {
    const newestS = this.#latest?.atS ?? 0;
    return this.#pieces.flatMap(({ number }) => [
      Math.max(-STRIP_SPAN_S, (number + 0.25) * PIECE_S - newestS),
      Math.min(0, (number + 0.75) * PIECE_S - newestS),
    ]);
  }

  /** What a channel read, row by row; null where nothing came [its SI unit, oldest first]. */
  column(name: ChannelName): readonly (number | null)[] {
    return this.#pieces.flatMap(({ spans }) => {
      const span = spans.get(name);
      if (span === undefined) return [null, null];
      return span.lowAtS <= span.highAtS ? [span.low, span.high] : [span.high, span.low];
    });
  }
}
