import { describe, expect, it } from 'vitest';
import { suctionSideOf } from '../../../../analysis/dryLift/fit/suctionSide.ts';
import { PRACTICE_RUN_SET_UP } from '../../../../rig/session/practiceConditions.ts';

const STATED = { boreM: 1e-4, lengthM: 2e-3, deadVolumeM3: 3e-6 };

describe('the suction side of a set-up', () => {
  it('makes a straight pipe of a riser as high as the lift and a level rest', () => {
    const { pipe } = suctionSideOf({ ...PRACTICE_RUN_SET_UP, suctionSideStandardUncertainty: STATED });
    expect(pipe.pieces.map(({ riseM }) => riseM.value)).toEqual([0.45, 0]);
    expect(pipe.pieces[1]?.lengthM.value).toBeCloseTo(0.35, 12); // 0.8 − 0.45
  });

  it('lets an error of the lift lengthen the riser and shorten the level rest', () => {
    const { pipe } = suctionSideOf(PRACTICE_RUN_SET_UP);
    expect(pipe.pieces[0]?.lengthM.sensitivities['setUp.staticLift']).toBe(1);
    expect(pipe.pieces[1]?.lengthM.sensitivities['setUp.staticLift']).toBe(-1);
  });

  it('says what was assumed, and nothing where all was stated', () => {
    expect(suctionSideOf(PRACTICE_RUN_SET_UP).assumed).toContain('bore to 1 %');
    const piece = {
      boreM: { value: 0.025, standardUncertainty: 1e-4 },
      lengthM: { value: 0.45, standardUncertainty: 2e-3 },
      riseM: 0.45,
      fittingLossCoefficient: 0,
    };
    const stated = suctionSideOf({
      ...PRACTICE_RUN_SET_UP,
      suctionSideStandardUncertainty: STATED,
      suctionPipe: { submergedLengthM: 0.2, pieces: [piece], strainerLossCoefficient: 2, hasFootValve: true },
    });
    expect(stated.assumed).toEqual([]);
    expect(stated.pipe.hasFootValve).toBe(true);
    expect(stated.pipe.strainerLossCoefficient).toBe(2);
    expect(stated.deadVolume.relativeStandardUncertainty).toBeCloseTo(0.05, 12); // 3 ml of 60 ml
  });

  it('names each error once', () => {
    const ids = suctionSideOf(PRACTICE_RUN_SET_UP).sources.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });
});
