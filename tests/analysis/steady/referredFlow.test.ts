import { describe, expect, it } from 'vitest';
import { referredFlow } from '../../../analysis/steady/referredFlow.ts';
import { exactly, type Uncertain } from '../../../analysis/uncertainty/source.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const ELASTICITY = { bulkModulusPa: exactly(1.5e9), expansionPerK: 7e-4 };

function place(pressurePa: number, temperatureK: number) {
  return { pressurePa: exactly(pressurePa), temperatureK: exactly(temperatureK) };
}

describe('referredFlow', () => {
  it('shrinks with pressure and grows with warmth, as by hand', () => {
    // By hand: 1 − 150e5/1.5e9 + 7e-4 · 10 = 1 − 0.01 + 0.007 = 0.997.
    const flow = referredFlow(exactly(2e-4), place(1e5, 310), place(151e5, 320), ELASTICITY);
    expectRelative(flow.value, 1.994e-4, 1e-12);
  });

  it('leaves a flow between equal places alone', () => {
    expect(referredFlow(exactly(2e-4), place(3e5, 310), place(3e5, 310), ELASTICITY).value).toBe(2e-4);
  });

  it('comes back to itself but for the squares that first order leaves out', () => {
    // By hand: (1 − 0.003)(1 + 0.003) = 1 − 9e-6.
    const there = referredFlow(exactly(2e-4), place(1e5, 310), place(151e5, 320), ELASTICITY);
    const back = referredFlow(there, place(151e5, 320), place(1e5, 310), ELASTICITY);
    expectRelative(back.value, 2e-4 * (1 - 9e-6), 1e-12);
  });

  it('has the sensitivities of its own formula (differences of a millionth)', () => {
    const inputs = { q: 2e-4, p1: 1e5, t1: 310, p2: 151e5, t2: 320, k: 1.5e9 };
    const named = (value: number, id: string): Uncertain => ({ value, sensitivities: { [id]: 1 } });
    const at = (of: typeof inputs): Uncertain =>
      referredFlow(
        named(of.q, 'q'),
        { pressurePa: named(of.p1, 'p1'), temperatureK: named(of.t1, 't1') },
        { pressurePa: named(of.p2, 'p2'), temperatureK: named(of.t2, 't2') },
        { bulkModulusPa: named(of.k, 'k'), expansionPerK: 7e-4 },
      );
    for (const key of ['q', 'p1', 't1', 'p2', 't2', 'k'] as const) {
      const step = 1e-6 * inputs[key];
      const rise =
        at({ ...inputs, [key]: inputs[key] + step }).value - at({ ...inputs, [key]: inputs[key] - step }).value;
      expectRelative(at(inputs).sensitivities[key] ?? Number.NaN, rise / (2 * step), 1e-4);
    }
  });
});
