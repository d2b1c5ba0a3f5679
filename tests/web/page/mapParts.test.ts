import { describe, expect, it } from 'vitest';
import { PRACTICE_OIL } from '../../../rig/session/practiceConditions.ts';
import { hatchedOf, nearestStep } from '../../../web/page/runs/map/mapDrawing.ts';
import type { AnyMap } from '../../../web/page/runs/map/mapForWish.ts';
import { wishedOil } from '../../../web/page/runs/map/mapOils.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const FLAT = { values: [0, 0, 0, 0, 0, 0], expandedUncertainties: [0, 0, 0, 0, 0, 0] };

/** Three speeds by two pressures. */
function mapWith(isExtrapolated: readonly boolean[]): AnyMap {
  return {
    oilName: 'invented',
    oilTemperatureK: 318.15,
    dynamicViscosityPaS: 0.045,
    densityKgPerM3: 860,
    speedsRevPerS: [5, 10, 15],
    differentialPressuresPa: [1e5, 3e5],
    derivedEfficiency: FLAT,
    geometricEfficiency: FLAT,
    isExtrapolated,
    beyondEverywhere: [],
    clearances: '',
  };
}

describe('the efficiency map, as it is drawn', () => {
  it('hatches neighbouring cells as one stretch, halfway to the measured ones', () => {
    // 5, 10, 15 rev/s are 300, 600, 900 r/min: the edges between lie at 450 and 750; 1 and 3 bar meet at 2.
    expect(hatchedOf(mapWith([true, true, false, false, false, true]))).toEqual([
      { fromX: 300, toX: 750, fromY: 1, toY: 2 },
      { fromX: 750, toX: 900, fromY: 2, toY: 3 },
    ]);
    expect(hatchedOf(mapWith([false, false, false, false, false, false]))).toEqual([]);
  });

  it('is read at the nearest step', () => {
    expect(nearestStep([5, 10, 15], 12)).toBe(1);
    expect(nearestStep([5, 10, 15], 99)).toBe(2);
  });
});

describe('the oil that a map is asked for', () => {
  const wish = { grade: 46, viscosityIndex: 100, oilTemperatureK: 318.15 };

  it('has the middle of its grade at 40 °C, and the spread of the grade as its uncertainty', () => {
    const oil = accepted(wishedOil(wish, PRACTICE_OIL));
    // ISO 3448: VG 46 is 46 mm²/s ± 10 % at 40 °C; rectangular, 0.1/√3
    expectRelative(oil.lower.kinematicViscosityM2PerS, 46e-6, 1e-12);
    expectRelative(oil.viscosityRelativeStandardUncertainty, 0.1 / Math.sqrt(3), 1e-12);
    expect(oil.viscosityBasis).toBe('grade');
  });

  it('is the oil of the run where no grade is named, and refused where it has no viscosity', () => {
    expect(accepted(wishedOil({ ...wish, grade: null }, PRACTICE_OIL))).toBe(PRACTICE_OIL);
    expect(wishedOil({ ...wish, oilTemperatureK: 600 }, PRACTICE_OIL)).toMatchObject({
      ok: false,
      reason: { code: 'TEMPERATURE_OUT_OF_RANGE' },
    });
    expect(wishedOil({ ...wish, grade: 47 }, PRACTICE_OIL)).toMatchObject({
      ok: false,
      reason: { code: 'UNKNOWN_GRADE' },
    });
  });
});
