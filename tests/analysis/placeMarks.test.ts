import { describe, expect, it } from 'vitest';
import { placeMarks } from '../../analysis/placeMarks.ts';

const MARKS = [
  { monotonicUs: 500_000, atUtc: '2026-01-01T00:00:00Z', text: 'pump turned by hand' },
  { monotonicUs: 3_000_000, atUtc: '2026-01-01T00:00:02Z', text: 'vented' },
];

describe('placeMarks', () => {
  it('counts from the first reading, before it too', () => {
    // (0.5 − 1.0) s and (3.0 − 1.0) s
    expect(placeMarks(MARKS, 1_000_000, 1).map(({ elapsedS }) => elapsedS)).toEqual([-0.5, 2]);
  });

  it('stretches the host time of a practice bench to bench time', () => {
    // 2 s of the wall are 40 s of a bench that runs twenty times as fast
    expect(placeMarks(MARKS, 1_000_000, 20)[1]?.elapsedS).toBe(40);
  });

  it('places no mark where there is no reading', () => {
    expect(placeMarks(MARKS, null, 1).map(({ elapsedS }) => elapsedS)).toEqual([null, null]);
  });
});
