import { oilState } from '../oil/oilState.ts';
import type { Readings } from '../readings.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { DryLiftRefusal } from '../result.ts';
import { sourceTable } from '../uncertainty/source.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';
import { STANDARD_GRAVITY_M_PER_S2 } from '../units.ts';
import { type Course, channelCourse, courseBetween } from './events/course.ts';
import type { StartEvents } from './events/findStartEvents.ts';
import { pipeTop } from './events/pipeTop.ts';
import { suctionRest } from './events/suctionRest.ts';
import { tankOilTemperature } from './tankOil.ts';

/** A dry pump has swept the pipe's volume and more before oil comes; less than this share of it is none [1]. */
const LEAST_SWEPT_SHARE = 0.7;
/** The suction stands at what the lift asks for from this share of it on [1] … */
const AT_LIFT_SHARE = 0.8;
/** … and so it did at once where less than this share of the pipe up to its top had been swept [1]. */
const AT_ONCE_SHARE = 0.3;

/** What the shaft swept between two times [m³]. */
function sweptM3(speed: Course, fromS: number, untilS: number, sweptVolumeM3PerRev: number): number {
  const { timesS, values } = courseBetween(speed, fromS, untilS);
  return timesS.reduce((sum, timeS, index) => {
    const beforeS = timesS[index - 1] ?? fromS;
    return sum + (timeS - beforeS) * (values[index] ?? 0) * sweptVolumeM3PerRev;
  }, 0);
}

/**
 * Whether oil came sooner than a dry pump could have brought it. Gas that is drawn is no denser than the air in the pipe was,
 * so that at least the pipe's volume must be swept before oil comes through it: what came sooner stood there already.
 *
 * @param run - bench, set-up, oil [-]
 * @param readings - of the run [n readings, oldest first]
 * @param events - of the start [s]
 * @param sweptVolumeM3PerRev - V_g [m³/rev]
 * @returns why the start proves nothing; null: it may well have been dry [-]
 *
 * Source: ∫ p V n dt ≥ p_atm V_pipe with p ≤ p_atm; derived here.
 */
export function wetStart(
  run: Pick<RunRecord, 'bench' | 'oil' | 'setUp' | 'zeroCheck'>,
  readings: Readings,
  events: StartEvents,
  sweptVolumeM3PerRev: number,
): DryLiftRefusal | null {
  const { oilAtOutlet, motorStart } = events;
  if (!oilAtOutlet.seen) return null;
  const { volumeM3, volumeBehindM3, heightM } = pipeTop(run.setUp);
  const speed = channelCourse(readings, 'speed');
  const startS = motorStart.atS.value;
  const { value, expandedUncertainty } = stateUncertainty(oilAtOutlet.atS, sourceTable(events.sources));
  const share = sweptM3(speed, startS, value + expandedUncertainty, sweptVolumeM3PerRev) / volumeM3;
  if (share >= LEAST_SWEPT_SHARE) return null;

  const suction = channelCourse(readings, 'suctionPressure');
  const rest = suctionRest(suction, startS);
  const { densityKgPerM3 } = oilState(run.oil, tankOilTemperature(run, readings).temperatureK.value);
  const askedPa = AT_LIFT_SHARE * densityKgPerM3 * STANDARD_GRAVITY_M_PER_S2 * heightM;
  const barometerPa = run.setUp.barometerPa.value;
  const stoodAtRest = rest !== null && askedPa > 0 && barometerPa - rest.meanPa >= askedPa;
  const running = courseBetween(suction, startS, value);
  const reached = running.values.findIndex((pa) => rest !== null && rest.meanPa - pa >= askedPa);
  const reachedS = running.timesS[reached];
  const fellAtOnce =
    askedPa > 0 &&
    reachedS !== undefined &&
    sweptM3(speed, startS, reachedS, sweptVolumeM3PerRev) < AT_ONCE_SHARE * (volumeM3 - volumeBehindM3);
  const came = `Oil came to the outlet when the pump had swept ${(100 * share).toFixed(0)} % of the suction pipe, and a dry one must sweep all of it`;
  if (stoodAtRest || fellAtOnce) {
    return {
      code: 'ALREADY_WET',
      text: `${came}; the suction stood at the static lift ${stoodAtRest ? 'before the motor started' : 'at once'}. The pipe was full of oil: no lift from dry is proven. Drain pump and pipe, and start again.`,
    };
  }
  return {
    code: 'OIL_TOO_EARLY',
    text: `${came}. There was oil in pump or pipe, or the pipe is not the one that the set-up describes: no lift from dry is proven.`,
  };
}
