import type { Mark } from './records/runRecord.ts';

/** A mark beside the readings. */
export type PlacedMark = {
  readonly atUtc: string;
  readonly text: string;
  /** Time since the first reading [s], negative before it; null where there is no reading to count from. */
  readonly elapsedS: number | null;
};

/**
 * Puts marks, stamped by the host's monotonic clock, on the time scale of the readings.
 *
 * @param marks - as the operator set them [µs of the host's clock]
 * @param firstArrivalUs - host's clock at the first reading; null without readings [µs]
 * @param speedUp - bench seconds in a second of the host: 1 for a real bench, > 0 [1]
 * @returns the marks in the same order [s since the first reading]
 *
 * Source: none; elapsed = (mark − first arrival) × speed-up.
 *
 * @example placeMarks([{ monotonicUs: 3e6, atUtc: '2026-01-01T00:00:00Z', text: 'vented' }], 1e6, 20)[0]?.elapsedS // 40
 */
export function placeMarks(
  marks: readonly Mark[],
  firstArrivalUs: number | null,
  speedUp: number,
): readonly PlacedMark[] {
  return marks.map(({ monotonicUs, atUtc, text }) => ({
    atUtc,
    text,
    elapsedS: firstArrivalUs === null ? null : ((monotonicUs - firstArrivalUs) / 1e6) * speedUp,
  }));
}
