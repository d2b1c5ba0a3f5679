/**
 * Readings that a sequence counter skipped.
 *
 * @param last - counter of the reading before [1]
 * @param now - counter of this reading [1]
 * @param bits - width of the counter, which wraps to 0 behind 2^bits - 1 [1]
 * @returns how many are missing between them; 0 if the counter stands or went back (the bench started anew) [1]
 */
export function skippedReadings(last: number, now: number, bits: number): number {
  const span = 2 ** bits;
  const advance = (now - last + span) % span;
  return advance >= 1 && advance <= span / 2 ? advance - 1 : 0;
}
