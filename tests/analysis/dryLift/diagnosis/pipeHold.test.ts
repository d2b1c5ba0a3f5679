import { describe, expect, it } from 'vitest';
import { readPipeHold } from '../../../../analysis/dryLift/diagnosis/pipeHold.ts';
import { normal } from '../../../support/random.ts';

const REST_PA = 101_325;
const HOLD = { fromS: 20, untilS: 32 } as const;

/** Suction of a pipe that loses it with a time constant; 30 Pa of noise. */
function held(drawnPa: number, lossS: number, seed: number, untilS = 32) {
  const noise = normal(seed);
  const timesS = Array.from({ length: Math.round(50 * untilS) }, (_, index) => index / 50);
  const values = timesS.map((atS) => {
    const leftPa = atS < HOLD.fromS ? drawnPa : drawnPa * Math.exp(-(atS - HOLD.fromS) / lossS);
    return REST_PA - leftPa + 30 * noise();
  });
  return { timesS, values };
}

describe('a suction pipe by itself (seeds 1 to 4)', () => {
  it('holds, or leaks as fast as it lost half', () => {
    expect(readPipeHold(held(4000, 1e6, 1), REST_PA, HOLD)).toMatchObject({ verdict: 'holds', halfLostS: null });
    const leaking = readPipeHold(held(4000, 5, 2), REST_PA, HOLD);
    if (leaking.verdict !== 'leaks') throw new Error(leaking.verdict);
    // 5 s × ln 2 = 3.47 s.
    expect(Math.abs((leaking.halfLostS ?? 0) - 5 * Math.LN2)).toBeLessThan(0.2);
    expect(Math.abs(leaking.drawnPa - 4000)).toBeLessThan(40);
  });

  it('says that it cannot tell where there was hardly a suction, or too short a hold', () => {
    expect(readPipeHold(held(40, 1e6, 3), REST_PA, HOLD).verdict).toBe('cannot tell');
    expect(readPipeHold(held(4000, 5, 4, 23), REST_PA, { fromS: 20, untilS: 23 }).verdict).toBe('cannot tell');
  });
});
