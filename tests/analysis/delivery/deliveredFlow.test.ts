import { describe, expect, it } from 'vitest';
import { deliveredFlow } from '../../../analysis/delivery/deliveredFlow.ts';
import type { DrainLaw } from '../../../analysis/delivery/drainLaw.ts';
import type { UncertainLawPoint } from '../../../analysis/delivery/slipLaw.ts';
import { exactly, type Uncertain } from '../../../analysis/uncertainty/source.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const CAPACITY: Uncertain = { value: 14e-6, sensitivities: { capacity: 1 } };
const LAMINAR: Uncertain = { value: 2e-12, sensitivities: { laminar: 1 } };

function lawOf(capacity: number, laminar: number) {
  return {
    coefficients: {
      derivedCapacityM3PerRev: capacity,
      laminarSlipM3: laminar,
      orificeSlipM2: 5e-8,
      speedPressureSlipM3PerPa: 1e-13,
    },
    uncertain: {
      derivedCapacityM3PerRev: { ...CAPACITY, value: capacity },
      laminarSlipM3: { ...LAMINAR, value: laminar },
      orificeSlipM2: exactly(5e-8),
      speedPressureSlipM3PerPa: exactly(1e-13),
    },
  };
}

function drainOf(coefficient: number): DrainLaw {
  const drainCoefficientM3 = { value: coefficient, sensitivities: { drain: 1 } };
  return { drainCoefficientM3, sources: [], residualsM3PerS: [], holdNumbers: [] };
}

/** Every input as a number, so that it can be stepped. */
const BASE = { capacity: 14e-6, laminar: 2e-12, drain: 3e-13, n: 15, dp: 4e5, mu: 0.04, rho: 860, bulk: 1.5e9 };
type Inputs = Record<keyof typeof BASE, number>;

function flowOf(inputs: Inputs): Uncertain {
  const named = (name: keyof Inputs): Uncertain => ({ value: inputs[name], sensitivities: { [name]: 1 } });
  const at: UncertainLawPoint = {
    speedRevPerS: named('n'),
    differentialPressurePa: named('dp'),
    dynamicViscosityPaS: named('mu'),
    densityKgPerM3: named('rho'),
  };
  return deliveredFlow(lawOf(inputs.capacity, inputs.laminar), drainOf(inputs.drain), at, named('bulk'));
}

describe('deliveredFlow', () => {
  it('is what is drawn in less the drain, at the density of the outlet', () => {
    // By hand: 14e-6 × 15 = 2.1e-4; less 2e-12 × 4e5/0.04 = 2e-5; less 5e-8 √(8e5/860); less 1e-13 × 15 × 4e5 = 6e-7;
    // less the drain 3e-13 × 1e7 = 3e-6; times 1 − 4e5/1.5e9.
    const atInlet = 2.1e-4 - 2e-5 - 5e-8 * Math.sqrt(8e5 / 860) - 6e-7 - 3e-6;
    expectRelative(flowOf(BASE).value, atInlet * (1 - 4e5 / 1.5e9), 1e-12);
  });

  it('gives back the outlet flow that a mass balance was formed from', () => {
    // By the balance q₁ = q₂ ρ₂/ρ₁ + drain, with q₂ = 1.8e-4 m³/s and a law that meets q₁ by its capacity alone.
    const ratio = 1 - BASE.dp / BASE.bulk;
    const drain = (BASE.drain * BASE.dp) / BASE.mu;
    const others = 5e-8 * Math.sqrt((2 * BASE.dp) / BASE.rho) + 1e-13 * BASE.n * BASE.dp;
    const capacity = (1.8e-4 / ratio + drain + others) / BASE.n;
    expectRelative(flowOf({ ...BASE, capacity, laminar: 0 }).value, 1.8e-4, 1e-12);
  });

  it('has the sensitivities that small steps of every input show', () => {
    for (const name of ['capacity', 'laminar', 'drain', 'n', 'dp', 'mu', 'rho', 'bulk'] as const) {
      const step = 1e-5 * BASE[name];
      const up = flowOf({ ...BASE, [name]: BASE[name] + step }).value;
      const down = flowOf({ ...BASE, [name]: BASE[name] - step }).value;
      expectRelative(flowOf(BASE).sensitivities[name] ?? Number.NaN, (up - down) / (2 * step), 1e-5);
    }
  });

  it('has no drain where the bench reads none', () => {
    const at = {
      speedRevPerS: exactly(15),
      differentialPressurePa: exactly(4e5),
      dynamicViscosityPaS: exactly(0.04),
      densityKgPerM3: exactly(860),
    };
    const without = deliveredFlow(lawOf(14e-6, 2e-12), null, at, exactly(1.5e9));
    expectRelative(without.value, flowOf({ ...BASE, drain: 0 }).value, 1e-12);
    expect(without.sensitivities.drain).toBeUndefined();
  });
});
