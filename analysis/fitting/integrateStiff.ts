import { rosenbrockStepper, type Slopes } from './rosenbrockStep.ts';

export type StiffProblem = {
  readonly slopes: Slopes;
  readonly startTime: number;
  readonly startState: readonly number[];
  /** A typical size of each component, > 0: errors are held relative to it or to the component, whichever is larger. */
  readonly scales: readonly number[];
  readonly endTime: number;
  /** The integration stops where this rises to zero; null: at the end time. */
  readonly stopWhen: ((time: number, state: Float64Array) => number) | null;
  /** Estimated error of a step over the scale, 1e-12 to 1e-2 [1]. */
  readonly tolerance: number;
};

/** The accepted points, with the slopes there: what lies between is the cubic through both. */
export type StiffCourse = {
  readonly times: readonly number[];
  readonly states: readonly Float64Array[];
  readonly slopes: readonly Float64Array[];
  readonly ending: 'end time' | 'stopped' | 'step too small';
};

const SAFETY = 0.9;
const MOST_GROWTH = 5;
const LEAST_GROWTH = 0.2;
const FIRST_STEP_SHARE = 1e-4;
const MOST_STEPS = 100_000;
const MOST_ROOT_STEPS = 60;

function errorNorm(error: Float64Array, from: Float64Array, to: Float64Array, problem: StiffProblem): number {
  let worst = 0;
  for (let index = 0; index < error.length; index += 1) {
    const size = Math.max(Math.abs(from[index] ?? 0), Math.abs(to[index] ?? 0), problem.scales[index] ?? 1);
    const share = Math.abs(error[index] ?? Number.NaN) / (problem.tolerance * size);
    if (!(share <= worst)) worst = share;
  }
  return worst;
}

function requireProblem({ startState, scales, startTime, endTime, tolerance }: StiffProblem): void {
  if (startState.length !== scales.length || !scales.every((scale) => scale > 0)) {
    throw new RangeError(`scales: ${scales.join(', ')}, expected one above zero for each of ${startState.length}`);
  }
  if (!(endTime > startTime && Number.isFinite(endTime - startTime))) {
    throw new RangeError(`endTime: ${endTime}, expected a time after ${startTime}`);
  }
  if (!(tolerance >= 1e-12 && tolerance <= 1e-2))
    throw new RangeError(`tolerance: ${tolerance}, expected 1e-12 to 1e-2`);
}

/**
 * Integrates y' = f(t, y) with error control, stiff or not, and stops where an event function rises to zero: the last step
 * is repeated, shorter, until it ends there.
 *
 * @param problem - slopes, start, scales, end, event, tolerance [units of the caller]
 * @returns the accepted points and how it ended; 'step too small': no step of any size was accurate enough [-]
 * @throws RangeError if scales, times or tolerance are impossible
 *
 * Source: Hairer and Wanner, Solving Ordinary Differential Equations II, IV.7 (method), IV.8 (step size).
 */
export function integrateStiff(problem: StiffProblem): StiffCourse {
  requireProblem(problem);
  const { slopes, scales, endTime, stopWhen } = problem;
  const stepper = rosenbrockStepper(slopes, scales);
  const slopeAt = (time: number, state: Float64Array): Float64Array => {
    const slope = new Float64Array(state.length);
    slopes(time, state, slope);
    return slope;
  };
  let time = problem.startTime;
  let state: Float64Array = Float64Array.from(problem.startState);
  const times = [time];
  const states: Float64Array[] = [state];
  const slopesThere = [slopeAt(time, state)];
  const error = new Float64Array(state.length);
  const keep = (atTime: number, atState: Float64Array): void => {
    times.push(atTime);
    states.push(atState);
    slopesThere.push(slopeAt(atTime, atState));
  };
  const course = (ending: StiffCourse['ending']): StiffCourse => ({ times, states, slopes: slopesThere, ending });

  let size = FIRST_STEP_SHARE * (endTime - time);
  stepper.linearise(time, state);
  for (let tried = 0; tried < MOST_STEPS; tried += 1) {
    const isLast = time + size >= endTime;
    if (isLast) size = endTime - time;
    const next = new Float64Array(state.length);
    stepper.step(size, next, error);
    const norm = errorNorm(error, state, next, problem);
    if (!(norm <= 1)) {
      size *= Number.isFinite(norm) ? Math.max(LEAST_GROWTH, SAFETY * norm ** -0.25) : LEAST_GROWTH;
      if (!(time + size > time)) return course('step too small');
      continue;
    }
    if (stopWhen !== null && stopWhen(time + size, next) >= 0) {
      const share = shareToEvent(stepper, stopWhen, time, state, size, next, error);
      keep(time + share * size, next);
      return course('stopped');
    }
    time = isLast ? endTime : time + size;
    state = next;
    keep(time, state);
    if (isLast) return course('end time');
    stepper.linearise(time, state);
    size *= norm === 0 ? MOST_GROWTH : Math.min(MOST_GROWTH, SAFETY * norm ** -0.25);
  }
  return course('step too small');
}

/** The share of a step at which the event function is zero, by false position (Illinois); `next` is left at its state. */
function shareToEvent(
  stepper: ReturnType<typeof rosenbrockStepper>,
  stopWhen: (time: number, state: Float64Array) => number,
  time: number,
  state: Float64Array,
  size: number,
  next: Float64Array,
  error: Float64Array,
): number {
  let [low, high] = [0, 1];
  let lowValue = stopWhen(time, state);
  let highValue = stopWhen(time + size, next);
  if (lowValue >= 0) return 1;
  for (let tried = 0; tried < MOST_ROOT_STEPS && high - low > 1e-13; tried += 1) {
    const share = (low * highValue - high * lowValue) / (highValue - lowValue);
    stepper.step(share * size, next, error);
    const value = stopWhen(time + share * size, next);
    if (value === 0 || Math.min(share - low, high - share) < 1e-14) return share;
    if (value > 0) {
      high = share;
      highValue = value;
      lowValue /= 2;
    } else {
      low = share;
      lowValue = value;
      highValue /= 2;
    }
  }
  return high;
}

/**
 * A component of an integrated course at given times, by the cubic through the accepted points and their slopes; before the
 * first point its value, after the last point its value.
 *
 * @param course - from {@link integrateStiff} [units of the caller]
 * @param component - which component of the state, from 0 [1]
 * @param times - rising [n, unit of time]
 * @returns values at those times [n, unit of the component]
 *
 * Source: cubic Hermite interpolation.
 */
export function sampleCourse(course: StiffCourse, component: number, times: ArrayLike<number>): Float64Array {
  const values = new Float64Array(times.length);
  const last = course.times.length - 1;
  const stateOf = (index: number): number => course.states[index]?.[component] ?? Number.NaN;
  const slopeOf = (index: number): number => course.slopes[index]?.[component] ?? Number.NaN;
  let index = 0;
  for (let n = 0; n < times.length; n += 1) {
    const time = times[n] ?? Number.NaN;
    while (index < last - 1 && (course.times[index + 1] ?? 0) < time) index += 1;
    const from = course.times[index] ?? 0;
    const span = (course.times[index + 1] ?? from) - from;
    const s = span > 0 ? Math.max(0, Math.min(1, (time - from) / span)) : 0;
    if (last === 0) {
      values[n] = stateOf(0);
      continue;
    }
    values[n] =
      (1 + 2 * s) * (1 - s) ** 2 * stateOf(index) +
      s * (1 - s) ** 2 * span * slopeOf(index) +
      s * s * (3 - 2 * s) * stateOf(index + 1) +
      s * s * (s - 1) * span * slopeOf(index + 1);
  }
  return values;
}
