import type { BadLineKind } from '../../analysis/readings.ts';
import type { DecodedLine } from '../decode/lineDecoder.ts';
import type { ReceivedLine } from '../serial/receivedLine.ts';

/** Lines are counted over this long [µs]. */
const RATE_WINDOW_US = 2e6;

/** How the line does: its rate over the last two seconds, and what was bad since it was opened. */
export class LineHealth {
  private arrivalsUs: number[] = [];
  private lastUs: number | null = null;
  /** The next line is the first since the port was opened: who begins to listen within a line hears its tail, and that is no fault. */
  private mayBeTail = true;
  private readonly badCounts: Partial<Record<BadLineKind, number>> = {};

  received({ monotonicUs }: ReceivedLine, decoded: DecodedLine): void {
    this.arrivalsUs.push(monotonicUs);
    this.lastUs = monotonicUs;
    if (decoded.kind === 'bad' && !this.mayBeTail) {
      this.badCounts[decoded.badKind] = (this.badCounts[decoded.badKind] ?? 0) + 1;
    }
    this.mayBeTail = decoded.kind === 'reconnected';
  }

  /** @param nowUs - host's monotonic clock [µs]; @returns since the last line; null before the first [ms] */
  quietForMs(nowUs: number): number | null {
    return this.lastUs === null ? null : Math.max(0, nowUs - this.lastUs) / 1e3;
  }

  badLineCounts(): Readonly<Partial<Record<BadLineKind, number>>> {
    return { ...this.badCounts };
  }

  /** @param nowUs - host's monotonic clock [µs]; @returns lines per second [1/s] */
  linesPerS(nowUs: number): number {
    const firstKept = this.arrivalsUs.findIndex((arrivalUs) => arrivalUs >= nowUs - RATE_WINDOW_US);
    this.arrivalsUs = firstKept < 0 ? [] : this.arrivalsUs.slice(firstKept);
    return this.arrivalsUs.length / (RATE_WINDOW_US / 1e6);
  }
}
