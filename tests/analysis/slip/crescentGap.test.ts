import { describe, expect, it } from 'vitest';
import { crescentGap } from '../../../analysis/slip/crescentGap.ts';
import { faceAndShaft } from '../../../analysis/slip/faceAndShaft.ts';
import { expectRelative } from '../../support/expectRelative.ts';

describe('crescentGap', () => {
  it('is the even gap where the gear runs central', () => {
    expect(crescentGap(4e-5, 0, 3.4)).toEqual({ pressureHeightM: 4e-5, dragHeightM: 4e-5 });
  });

  it('is what many tips in series let through, solved tip by tip', () => {
    // Second route: a thousand narrow tips, the flow sought by bisection so that their pressure drops, each from
    // q = U h/2 − h³/(12 µ) dp/dx, add up to the whole. Derived here, no outside source.
    const [c, lean, arc, viscosity, wall] = [40e-6, 14e-6, 3.4, 0.03, 2];
    const count = 1000;
    const land = 0.01 / count;
    const heights = Array.from({ length: count }, (_, tip) => {
      const angle = Math.PI / 2 + arc * ((tip + 0.5) / count - 0.5);
      return c - lean * Math.cos(angle);
    });
    const rise = (flow: number, speed: number): number =>
      heights.reduce((sum, h) => sum + ((12 * viscosity * land) / h ** 3) * ((speed * h) / 2 - flow), 0);
    const flowAt = (pressure: number, speed: number): number => {
      let [low, high] = [-1, 1];
      for (let step = 0; step < 100; step += 1) {
        const middle = (low + high) / 2;
        if (rise(middle, speed) > pressure) low = middle;
        else high = middle;
      }
      return (low + high) / 2;
    };
    const gap = crescentGap(c, lean, arc);
    if (gap === null) throw new Error('the gear was said to touch');
    expectRelative((-12 * viscosity * 0.01 * flowAt(1e5, 0)) / 1e5, gap.pressureHeightM ** 3, 1e-4);
    expectRelative((2 * flowAt(0, wall)) / wall, gap.dragHeightM, 1e-4);
    // The tightest tips rule: a leaning gear leaks less over its tips than a central one.
    expect(gap.pressureHeightM).toBeLessThan(c);
  });

  it('says so when the gear touches the casing', () => {
    // By hand: an arc of 3.4 rad reaches past the suction direction, where h = c − e.
    expect(crescentGap(40e-6, 40e-6, 3.4)).toBeNull();
    // An arc of 1 rad reaches to cos θ = sin 0.5 = 0.479: a lean of 80 µm leaves 1.6 µm there.
    expect(crescentGap(40e-6, 80e-6, 1)).not.toBeNull();
    expect(crescentGap(40e-6, 84e-6, 1)).toBeNull();
  });
});

describe('faceAndShaft', () => {
  it('is the network of both halves of the face and the bush', () => {
    // Second route, by hand: K = 4, B = 2, Δp = 1, µ = 1: ring (2)/(6) = 1/3; in 2 (1 − 1/3) = 4/3, out over the face 2/3,
    // along the shaft 2/3.
    const ways = faceAndShaft(4, 2);
    expectRelative(ways.facesM3, 2 / 3, 1e-12);
    expectRelative(ways.shaftM3, 2 / 3, 1e-12);
  });

  it('leaves a quarter where the bush is blind and a half where it is wide open, and nothing where all is shut', () => {
    expect(faceAndShaft(4, 0)).toEqual({ facesM3: 1, shaftM3: 0 });
    const open = faceAndShaft(4, 1e9);
    expectRelative(open.facesM3 + open.shaftM3, 2, 1e-6);
    expect(faceAndShaft(0, 0)).toEqual({ facesM3: 0, shaftM3: 0 });
  });
});
