/**
 * When a pump counts as primed. No standard defines it for displacement pumps (EN 14343:2005 leaves priming out), so
 * the criterion is our own: delivery at the outlet reaches half of swept volume × speed and stays there for two seconds.
 *
 * Half: a burst of foam or the oil left in the gears falls short of it, and a worn pump that still feeds the gears
 * reaches it against the open delivery of a dry start. Two seconds: at cranking speed the gears turn ten times and
 * more, many times what they hold, so that what is delivered must have come up the pipe. A tenth of a second: a meter
 * that misses a reading or two says nothing of the pump; foam that comes and goes does so more slowly.
 */
export const PRIMED_CRITERION = {
  /** Share of swept volume × speed [1]. */
  flowShare: 0.5,
  /** How long the flow must stay at or above that share [s]. */
  sustainedS: 2,
  /** A dip shorter than this is the meter's, not the pump's [s]. */
  shortestDipS: 0.1,
} as const;
