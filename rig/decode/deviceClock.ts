/** A step forward beyond what passed at the host by more than this is no step but a jump; so is every step back [µs]. */
const LARGEST_LEAD_US = 10_000_000;

export type ClockStep = {
  /** Time on a scale that never wraps nor goes back [µs]. */
  readonly unwrappedUs: number;
  readonly isJump: boolean;
};

/**
 * Unwraps a device clock of declared width. After a jump the scale goes on from the arrival of the lines, so that it neither goes
 * back nor leaps.
 */
export class DeviceClock {
  private lastRawUs = 0;
  private lastArrivalUs = 0;
  private unwrappedUs: number | null = null;

  constructor(private readonly bits: number) {}

  /**
   * @param rawUs - the clock as sent, 0 to 2^bits - 1 [µs]
   * @param arrivalUs - host's clock when the line came [µs]
   * @param speedUp - device seconds in a second of the host; 1 but for a practice bench [1]
   * @param isAfterGap - the port was gone since the reading before: whole turns of a narrow clock may have passed unseen [-]
   */
  step(rawUs: number, arrivalUs: number, speedUp: number, isAfterGap: boolean): ClockStep {
    const before = this.unwrappedUs;
    const passedUs = Math.max(0, arrivalUs - this.lastArrivalUs) * speedUp;
    const span = 2 ** this.bits;
    let advanceUs = (rawUs - this.lastRawUs + span) % span;
    // Only behind a gap: lines that came late in a bunch would otherwise be taken for turns of the clock.
    if (isAfterGap) advanceUs += Math.max(0, Math.round((passedUs - advanceUs) / span)) * span;
    const isJump = before !== null && advanceUs > passedUs + LARGEST_LEAD_US;
    this.lastRawUs = rawUs;
    this.lastArrivalUs = arrivalUs;
    this.unwrappedUs = before === null ? rawUs : before + (isJump ? passedUs : advanceUs);
    return { unwrappedUs: this.unwrappedUs, isJump };
  }
}
