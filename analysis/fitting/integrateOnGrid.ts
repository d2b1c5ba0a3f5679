import type { StiffCourse } from './integrateStiff.ts';
import { rosenbrockStepper, type Slopes } from './rosenbrockStep.ts';

/** What happens between steps where f itself jumps: a valve that shuts and opens. */
export type BetweenSteps = {
  readonly beforeStep: (time: number, state: Float64Array) => void;
  /** May change the state that a step arrived at. */
  readonly afterStep: (state: Float64Array, before: Float64Array) => void;
};

/**
 * Integrates y' = f(t, y) over steps that are given: no error control, so that the course is a smooth function of anything
 * that f depends on, as a fit wants it.
 *
 * @param slopes - f [unit of y per unit of t]
 * @param startState - y at the first time [n]
 * @param scales - a typical size of each component, > 0 [n]
 * @param times - rising, the first is the start [m]
 * @param isOver - ends the course at the first time where it is true; null: never [-]
 * @param between - what happens between steps; null: nothing [-]
 * @returns the points; 'stopped' where it was over before the last time [units of the caller]
 *
 * Source: Hairer and Wanner, Solving Ordinary Differential Equations II, IV.7 (RODAS), as in rosenbrockStep.ts.
 */
export function integrateOnGrid(
  slopes: Slopes,
  startState: readonly number[],
  scales: readonly number[],
  times: readonly number[],
  isOver: ((state: Float64Array) => boolean) | null,
  between: BetweenSteps | null = null,
): StiffCourse {
  const stepper = rosenbrockStepper(slopes, scales);
  const error = new Float64Array(startState.length);
  const slopeAt = (time: number, state: Float64Array): Float64Array => {
    const slope = new Float64Array(state.length);
    slopes(time, state, slope);
    return slope;
  };
  let state: Float64Array = Float64Array.from(startState);
  let time = times[0] ?? 0;
  let slope = slopeAt(time, state);
  const course = { times: [time], states: [state], slopes: [slope] };
  for (let index = 1; index < times.length; index += 1) {
    const next = new Float64Array(startState.length);
    between?.beforeStep(time, state);
    // A valve between the steps may have changed what the slope was.
    if (between === null) stepper.linearise(time, state, slope);
    else stepper.linearise(time, state);
    stepper.step((times[index] ?? Number.NaN) - time, next, error);
    between?.afterStep(next, state);
    if (isOver?.(next) === true) return { ...course, ending: 'stopped' };
    state = next;
    time = times[index] ?? Number.NaN;
    course.times.push(time);
    course.states.push(state);
    slope = slopeAt(time, state);
    course.slopes.push(slope);
  }
  return { ...course, ending: 'end time' };
}
