import { QUALITY, type Readings } from '../../readings.ts';

export type StartMoments = {
  readonly motorStartS: number;
  readonly runningRevPerS: number;
  /** Last instant that certainly comes before oil in the pump; the end of the record where none came. */
  readonly untilS: number;
};

/** The motor counts as running down below this share of its speed [1]. */
const RUNNING_SHARE = 0.97;
/** Readings this close before oil may be in the pump are left out besides [s]. */
const MARGIN_S = 0.1;

/** Events of a start, as they were found. */
export type FoundStart = {
  readonly motorStartS: number;
  readonly runningRevPerS: number;
  /** When oil came to the pump's inlet, less what is not certain about it; null: not seen. */
  readonly oilAtInletS: number | null;
  /** When it came to the outlet; null: never. */
  readonly oilAtOutletS: number | null;
};

/**
 * Until when no oil can have been in the pump: oil at the inlet where it was seen; else oil at the outlet less the time that
 * the pump takes to sweep its dead volume; where none came, until the motor runs down.
 *
 * @param found - events of the start [s, rev/s]
 * @param readings - of the run, with its speed [n readings, oldest first]
 * @param deadVolumeM3 - gas between flange and gears [m³]
 * @param capacityM3PerRev - V_i or V_g [m³/rev]
 * @returns motor start, running speed and that instant [s, rev/s]
 */
export function startMoments(
  found: FoundStart,
  readings: Readings,
  deadVolumeM3: number,
  capacityM3PerRev: number,
): StartMoments {
  const { motorStartS, runningRevPerS, oilAtInletS, oilAtOutletS } = found;
  const common = { motorStartS, runningRevPerS };
  if (oilAtInletS !== null) return { ...common, untilS: oilAtInletS - MARGIN_S };
  if (oilAtOutletS !== null) {
    return { ...common, untilS: oilAtOutletS - deadVolumeM3 / (capacityM3PerRev * runningRevPerS) - MARGIN_S };
  }
  const speed = readings.channels.speed;
  let untilS = motorStartS;
  for (const [index, value] of (speed?.values ?? []).entries()) {
    if (speed?.quality[index] === QUALITY.good && value >= RUNNING_SHARE * runningRevPerS) {
      untilS = readings.elapsedS[index] ?? untilS;
    }
  }
  return { ...common, untilS: untilS - MARGIN_S };
}
