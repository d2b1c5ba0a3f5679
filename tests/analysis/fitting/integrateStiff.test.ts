import { describe, expect, it } from 'vitest';
import { integrateStiff, type StiffProblem, sampleCourse } from '../../../analysis/fitting/integrateStiff.ts';
import { rosenbrockStepper } from '../../../analysis/fitting/rosenbrockStep.ts';
import { expectRelative } from '../../support/expectRelative.ts';

/** y' = −λ (y − cos t) − sin t, y(0) = 1: y = cos t whatever λ (Prothero and Robinson 1974). */
function following(stiffnessPerS: number, tolerance: number): StiffProblem {
  return {
    slopes: (t, [y = 0], into) => {
      into[0] = -stiffnessPerS * (y - Math.cos(t)) - Math.sin(t);
    },
    startTime: 0,
    startState: [1],
    scales: [1],
    endTime: 2,
    stopWhen: null,
    tolerance,
  };
}

/** Free fall: height and speed; lands after √(2 h/g) seconds. */
const falling: StiffProblem = {
  slopes: (_, [, speed = 0], into) => {
    into[0] = speed;
    into[1] = -10;
  },
  startTime: 0,
  startState: [5, 0],
  scales: [1, 1],
  endTime: 3,
  stopWhen: (_, [height = 0]) => -height,
  tolerance: 1e-8,
};

function last(values: ArrayLike<number>): number {
  return values[values.length - 1] ?? Number.NaN;
}

describe('the stiff integrator', () => {
  it.each([1, 1e3, 1e6])('keeps to the cosine at stiffness %d per second', (stiffness) => {
    const course = integrateStiff(following(stiffness, 1e-8));
    expect(course.ending).toBe('end time');
    expectRelative(last(sampleCourse(course, 0, [2])), Math.cos(2), 1e-6); // closed form
  });

  it('takes few steps for a stiff problem: they do not follow the fast decay', () => {
    // An explicit method would be held to about 2/λ, a million steps.
    expect(integrateStiff(following(1e6, 1e-6)).times.length).toBeLessThan(200);
  });

  it('shows fourth order for single steps of a problem that depends on state and time', () => {
    // y' = y cos t, y(0) = 1: y = exp(sin t). Halving the step divides the error over a fixed time by 16.
    const errorWith = (count: number): number => {
      const stepper = rosenbrockStepper(
        (t, [y = 0], into) => {
          into[0] = y * Math.cos(t);
        },
        [1],
      );
      let state = Float64Array.of(1);
      for (let index = 0; index < count; index += 1) {
        const next = new Float64Array(1);
        stepper.linearise(index / count, state);
        stepper.step(1 / count, next, new Float64Array(1));
        state = next;
      }
      return Math.abs((state[0] ?? 0) - Math.exp(Math.sin(1)));
    };
    expect(Math.log2(errorWith(8) / errorWith(16))).toBeGreaterThan(3.6);
    expect(Math.log2(errorWith(16) / errorWith(32))).toBeGreaterThan(3.6);
  });

  it('stops where the event is: a stone from 5 m lands after one second', () => {
    const course = integrateStiff(falling);
    expect(course.ending).toBe('stopped');
    expectRelative(last(course.times), 1, 1e-9); // by hand: √(2 · 5/10)
    expectRelative(last(sampleCourse(course, 1, [1])), -10, 1e-9);
  });

  it('gives exactly what stands between the points of a parabola, and the ends outside', () => {
    const course = integrateStiff({ ...falling, stopWhen: null });
    const [before, half, after] = sampleCourse(course, 0, [-1, 0.5, 9]);
    expectRelative(before ?? 0, 5, 1e-12);
    expectRelative(half ?? 0, 5 - 5 * 0.25, 1e-9); // by hand: h − g t²/2
    expectRelative(after ?? 0, 5 - 5 * 9, 1e-9);
  });

  it('says so when no step is small enough', () => {
    const course = integrateStiff({
      ...falling,
      slopes: (t, _, into) => {
        into[0] = t > 0.5 ? Number.NaN : 1;
        into[1] = 0;
      },
      stopWhen: null,
    });
    expect(course.ending).toBe('step too small');
  });

  it('refuses impossible scales, times and tolerances', () => {
    expect(() => integrateStiff({ ...falling, scales: [1] })).toThrow(RangeError);
    expect(() => integrateStiff({ ...falling, endTime: 0 })).toThrow(RangeError);
    expect(() => integrateStiff({ ...falling, tolerance: 0 })).toThrow(RangeError);
  });
});
