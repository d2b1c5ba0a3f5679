import { BAROMETER_SOURCE_ID, channelValue } from '../calibration/channelSources.ts';
import type { Readings } from '../readings.ts';
import type { RunRecord } from '../records/runRecord.ts';
import { combine, type Source, sourceTable } from '../uncertainty/source.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';
import { channelCourse } from './events/course.ts';
import { pipeTop } from './events/pipeTop.ts';
import { suctionRest } from './events/suctionRest.ts';

/** What stays on the result of a start, whatever comes of it. */
export type StartDoubt = {
  readonly code: 'LIFT_ZERO' | 'PIPE_CONTRADICTS_LIFT' | 'BAROMETER_CONTRADICTS_SUCTION';
  readonly text: string;
};

/** The pieces of a pipe, each by tape, add up to the lift within so much, or three times the lift's own uncertainty [m]. */
const SAME_LIFT_M = 0.02;
const DEVIATIONS = 3;

function barometerDoubt(
  { bench, setUp, zeroCheck }: Pick<RunRecord, 'bench' | 'setUp' | 'zeroCheck'>,
  readings: Readings,
  motorStartS: number,
  sources: readonly Source[],
): StartDoubt | null {
  const channel = bench.channels.find((entry) => entry.channel === 'suctionPressure');
  const rest = suctionRest(channelCourse(readings, 'suctionPressure'), motorStartS);
  if (channel === undefined || rest === null) return null;
  const barometerPa = setUp.barometerPa.value;
  const difference = combine(rest.meanPa - barometerPa, [
    { input: channelValue(channel, rest.meanPa, barometerPa, zeroCheck), derivative: 1 },
    { input: { value: barometerPa, sensitivities: { [BAROMETER_SOURCE_ID]: 1 } }, derivative: -1 },
  ]);
  const { value, standardUncertainty } = stateUncertainty(difference, sourceTable(sources));
  if (!(Math.abs(value) > DEVIATIONS * standardUncertainty)) return null;
  return {
    code: 'BAROMETER_CONTRADICTS_SUCTION',
    text: `At rest the suction channel stood ${value.toFixed(0)} Pa from the barometer, and the two allow ${(DEVIATIONS * standardUncertainty).toFixed(0)} Pa: read the barometer again, or see whether the pipe was vented.`,
  };
}

/**
 * What in a start's set-up contradicts itself or its readings.
 *
 * @param run - bench, set-up, zero check [-]
 * @param readings - of the run [n readings, oldest first]
 * @param motorStartS - until when all was at rest [s]
 * @param sources - of channels and barometer [-]
 * @returns doubts; empty where there are none [-]
 */
export function startDoubts(
  run: Pick<RunRecord, 'bench' | 'setUp' | 'zeroCheck'>,
  readings: Readings,
  motorStartS: number,
  sources: readonly Source[],
): readonly StartDoubt[] {
  const { staticLiftM, suctionPipe } = run.setUp;
  const doubts: StartDoubt[] = [];
  if (!(staticLiftM.value > 0)) {
    doubts.push({
      code: 'LIFT_ZERO',
      text: 'The set-up states a lift of zero: the oil stands as high as the pump, and no lift is proven whatever came.',
    });
  }
  const { heightM } = pipeTop(run.setUp);
  const offM = heightM - staticLiftM.value;
  if (suctionPipe !== null && Math.abs(offM) > Math.max(SAME_LIFT_M, DEVIATIONS * staticLiftM.standardUncertainty)) {
    doubts.push({
      code: 'PIPE_CONTRADICTS_LIFT',
      text: `The pieces of the suction pipe reach ${heightM.toFixed(3)} m, and the set-up states a lift of ${staticLiftM.value.toFixed(3)} m: ${offM < 0 ? 'such a pipe cannot hold the column, so ' : ''}one of the two is wrong.`,
    });
  }
  const barometer = barometerDoubt(run, readings, motorStartS, sources);
  return barometer === null ? doubts : [...doubts, barometer];
}
