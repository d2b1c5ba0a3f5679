import type { BadLineKind } from '../../analysis/readings.ts';
import type { ReceivedLine } from '../serial/receivedLine.ts';

/** Lines are counted over this long [µs]. */
const RATE_WINDOW_US = 2e6;

/** How the line does: its rate over the last two seconds, and what was bad since it was opened. */
export class LineHealth {
  private arrivalsUs: number[] = [];
  private readonly badCounts: Partial<Record<BadLineKind, number>> = {};

  received({ monotonicUs }: ReceivedLine): void {
    this.arrivalsUs.push(monotonicUs);
  }

  bad(kind: BadLineKind): void {
    this.badCounts[kind] = (this.badCounts[kind] ?? 0) + 1;
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
