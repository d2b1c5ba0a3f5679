import { type StiffCourse, sampleCourse } from '../fitting/integrateStiff.ts';
import type { Uncertain } from '../uncertainty/source.ts';
import type { DryPumpFit } from './fit/dryPumpFit.ts';
import { laggedCourse } from './fit/laggedCourse.ts';
import type { MeasuredStart } from './fit/measuredStartTypes.ts';
import { oilAt, pipeAt } from './fit/predictStart.ts';
import { simulateBlanked } from './model/blankedSuction.ts';
import { PRESSURE_PA, simulateDryStart } from './model/simulateDryStart.ts';
import { columnHeight, pipeTable } from './model/suctionPipe.ts';

/** The model's course of a start, in the run's elapsed time; as much as a drawing shows. */
export type StartCourse = {
  readonly elapsedS: readonly number[];
  readonly suctionPressurePa: readonly number[];
  /** Null: blanked, no oil was to be taken. */
  readonly columnHeightM: readonly number[] | null;
};

const POINTS = 120;
/** More of them early, when all changes fast: times go as this power of their number [1]. */
const EARLY = 1.5;

/** Component of a simulated course: oil above the oil surface. */
const FILLED_M3 = 0;

function timesUntil(endS: number): readonly number[] {
  return Array.from({ length: POINTS }, (_, index) => endS * (index / (POINTS - 1)) ** EARLY);
}

/**
 * What the fitted model says of a start: suction as its channel would have shown it, and the column behind it, until oil
 * comes to the inlet or the readings end.
 *
 * @param fit - of a dry pump [-]
 * @param start - one of its starts [SI]
 * @param motorStartS - of that start, in the run's elapsed time [s]
 * @param watchedS - how long after the motor start the record goes on [s]
 * @returns its course [s, Pa, m]
 */
export function startCourse(fit: DryPumpFit, start: MeasuredStart, motorStartS: number, watchedS: number): StartCourse {
  const { space, parameters } = fit.search;
  const { surroundings, kind } = start;
  const inputAt = (input: Uncertain): number => space.inputAt(input, parameters);
  const running = space.running(surroundings, start.speedRevPerS, parameters);
  const deadVolumeM3 = space.deadVolumeM3(parameters);
  const timingS = space.timingS(start, parameters);
  const sampled = (course: StiffCourse, component: number) => {
    const times = timesUntil(course.times[course.times.length - 1] ?? 0);
    const shown = laggedCourse(
      (atS) => sampleCourse(course, component, atS),
      times.map((timeS) => timeS - timingS),
      start.suctionLagS,
    );
    return {
      times,
      elapsedS: times.map((timeS) => timeS + motorStartS - start.motorStartS),
      suctionPressurePa: Array.from(shown),
    };
  };
  if (kind === 'blanked') {
    const course = simulateBlanked({ ...running, closedVolumeM3: deadVolumeM3 }, start.timesS.at(-1) ?? 0);
    const { elapsedS, suctionPressurePa } = sampled(course, 0);
    return { elapsedS, suctionPressurePa, columnHeightM: null };
  }
  const pipe = pipeAt(surroundings.pipe, inputAt);
  const { rise } = simulateDryStart(
    {
      ...running,
      pipe,
      deadVolumeM3,
      oil: oilAt(surroundings, inputAt),
      outletVolumeM3: 0,
      deliveryLineVolumeM3: 0,
    },
    start.motorStartS + watchedS,
  );
  const { times, elapsedS, suctionPressurePa } = sampled(rise, PRESSURE_PA);
  const table = pipeTable(pipe);
  const filledM3 = sampleCourse(
    rise,
    FILLED_M3,
    times.map((timeS) => timeS - timingS),
  );
  return {
    elapsedS,
    suctionPressurePa,
    columnHeightM: Array.from(filledM3, (volumeM3) => Math.max(0, columnHeight(table, volumeM3))),
  };
}
