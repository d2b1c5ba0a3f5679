import { median, sampleStandardDeviation } from 'simple-statistics';
import { no, type Outcome, yes } from '../../outcome.ts';
import type { DryLiftRefusal } from '../../result.ts';
import type { Source, Uncertain } from '../../uncertainty/source.ts';
import { type Course, withoutSpikes } from './course.ts';
import { movedBy, timingSource } from './startEvent.ts';

export type MotorStart = {
  readonly atS: Uncertain;
  /** Median while it runs. */
  readonly runningRevPerS: number;
  readonly sources: readonly Source[];
};

/** Slower is no turning [rev/s]. */
const LEAST_REV_PER_S = 0.1;
/** Already turning at this share of the running speed when the record begins: no start in it [1]. */
const TURNING_SHARE = 0.1;
/** The run-up is surely on at this share; from there one goes back to rest [1]. */
const SURELY_SHARE = 0.5;
/** Below this share the motor still runs up, or down [1]. */
const RUN_UP_SHARE = 0.97;
/** At rest up to so many standard deviations over the speed at rest, and this share of the running speed at the least. */
const REST_DEVIATIONS = 5;
const REST_SHARE = 0.005;
const LEAST_REST_READINGS = 5;

/** Speed up to which the shaft counts as at rest, from what its channel shows there. */
function restLevel(before: readonly number[], runningRevPerS: number): number {
  const leastRevPerS = REST_SHARE * runningRevPerS;
  if (before.length < LEAST_REST_READINGS) return leastRevPerS;
  const scatter = REST_DEVIATIONS * sampleStandardDeviation([...before]);
  return median([...before]) + Math.max(scatter, leastRevPerS);
}

/**
 * Motor start: between the last reading at rest before the run-up and the first that moves, less what the speed channel's
 * lag may hide.
 *
 * @param speed - of the shaft [s, rev/s]
 * @param lagS - of the speed channel [s]
 * @returns the instant with its uncertainty, or why there is none [s]
 */
export function findMotorStart(speed: Course, lagS: number): Outcome<MotorStart, DryLiftRefusal> {
  if (speed.values.length < 3) {
    return no({
      code: 'CHANNEL_MISSING',
      channel: 'speed',
      text: "A dry start cannot be read without the channel 'speed'.",
    });
  }
  const { timesS, values } = withoutSpikes(speed, 0);
  const fastestRevPerS = values.reduce((most, value) => Math.max(most, value), 0);
  if (!(fastestRevPerS > LEAST_REV_PER_S)) {
    return no({ code: 'NO_MOTOR_START', text: 'The shaft never turned: no motor start in the record.' });
  }
  const roughRevPerS = median(values.filter((value) => value > 0.5 * fastestRevPerS));
  const runningRevPerS = median(values.filter((value) => value > RUN_UP_SHARE * roughRevPerS));
  if ((values[0] ?? 0) > TURNING_SHARE * runningRevPerS) {
    return no({
      code: 'ALREADY_RUNNING',
      text: 'The shaft was already turning at the first reading: start the recording first, then the motor.',
    });
  }
  const surely = values.findIndex((value) => value >= SURELY_SHARE * runningRevPerS);
  const early = values.slice(0, surely);
  const slow = early.findLastIndex((value) => value <= TURNING_SHARE * runningRevPerS);
  // Half of the rest that the record shows: its end may lie in the run-up already.
  const rest = restLevel(early.slice(0, Math.ceil((slow + 1) / 2)), runningRevPerS);
  const last = early.findLastIndex((value) => value <= rest);
  const movingS = timesS[last + 1] ?? 0;
  const restS = timesS[Math.max(0, last)] ?? movingS;
  const sources = [
    timingSource('timing.motorStart', 'motor start, between two readings', (movingS - restS) / 2, 'random'),
    timingSource('timing.speedLag', 'motor start, lag of the speed channel', lagS / 2, 'calibration'),
  ];
  return yes({ atS: movedBy((restS + movingS) / 2 - lagS / 2, sources), runningRevPerS, sources });
}
