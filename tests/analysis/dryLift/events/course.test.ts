import { describe, expect, it } from 'vitest';
import {
  atUpdates,
  channelCourse,
  crossingS,
  sustainedCrossingS,
  valueAt,
  withoutSpikes,
} from '../../../../analysis/dryLift/events/course.ts';
import { QUALITY } from '../../../../analysis/readings.ts';
import { sampledReadings } from '../../../support/readings.ts';

const course = (values: readonly number[], intervalS = 0.1) => ({
  timesS: values.map((_, index) => index * intervalS),
  values,
});

describe('the course of a channel', () => {
  it('holds good readings only', () => {
    const readings = sampledReadings(1, 4, { flow: (atS) => atS });
    const quality = readings.channels.flow?.quality;
    if (quality === undefined) throw new Error('fixture');
    quality[1] = QUALITY.outOfRange;
    expect(channelCourse(readings, 'flow').values).toEqual(
      [...(readings.channels.flow?.values ?? [])].filter((_, index) => index !== 1),
    );
    expect(channelCourse(readings, 'torque').values).toEqual([]);
  });

  it('is crossed where a straight line between two readings crosses', () => {
    // From 2 at 0.1 s to 6 at 0.2 s: 3 a quarter of the way.
    expect(crossingS(course([0, 2, 6]), 2, 3)).toBeCloseTo(0.125, 12);
    expect(crossingS(course([0, 2, 6]), 0, 3)).toBe(0);
  });

  it('is crossed for good only where it stays beyond for long enough', () => {
    const stays = course([-1, 1, 1, -1, -1, 1, 1, 1, 1, 1]);
    expect(sustainedCrossingS(stays, 0.4)).toBeCloseTo(0.45, 12);
    expect(sustainedCrossingS(stays, 0.5)).toBeNull();
  });

  it('loses single wild readings, and no edge', () => {
    expect(withoutSpikes(course([0, 0, 9, 0, 0, 5, 5, 5, -9, 5, 5]), 0).values).toEqual([
      0, 0, 0, 0, 0, 5, 5, 5, 5, 5, 5,
    ]);
  });

  it('is read at its own updates where a slow instrument repeats itself', () => {
    const repeated = course([1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3, 4, 4, 4, 4], 0.05);
    expect(atUpdates(repeated, 0, 1).values).toEqual([1, 2, 3, 4]);
    const lively = course([1, 2, 3, 4, 5, 6, 7, 8]);
    expect(atUpdates(lively, 0, 1)).toBe(lively);
  });

  it('has a value between its readings, and that of its end outside', () => {
    expect(valueAt(course([0, 2, 6]), 0.175)).toBeCloseTo(5, 12);
    expect(valueAt(course([0, 2, 6]), -1)).toBe(0);
    expect(valueAt(course([0, 2, 6]), 9)).toBe(6);
  });
});
