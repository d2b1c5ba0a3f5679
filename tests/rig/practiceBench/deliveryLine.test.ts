import { expect, it } from 'vitest';
import {
  advanceDeliveryPressure,
  type Feed,
  slipFlowM3PerS,
  valveFlowM3PerS,
} from '../../../rig/practiceBench/deliveryLine.ts';
import { expectWithin } from './expectWithin.ts';

const OIL = { dynamicViscosityPaS: 0.045, densityKgPerM3: 857 };
const ATMOSPHERE_PA = 101_325;
const FEED: Feed = {
  sweptM3PerS: 2.08e-4,
  suctionPressurePa: ATMOSPHERE_PA,
  laminarSlipM3: 2e-12,
  orificeSlipM2: 1.25e-7,
};

function settle(opening: number, feed: Feed): number {
  let pressurePa = ATMOSPHERE_PA;
  for (let step = 0; step < 2000; step++) {
    pressurePa = advanceDeliveryPressure(pressurePa, feed, opening, ATMOSPHERE_PA, OIL, 1e-3);
  }
  return pressurePa;
}

it('loses the slip that the laws give', () => {
  // By hand at 3 bar: 2e-12 · 3e5/0.045 = 1.33333e-5; 1.25e-7 · √(2 · 3e5/857) = 1.25e-7 · 26.4598 = 3.30748e-6 m³/s.
  expectWithin(slipFlowM3PerS(FEED, ATMOSPHERE_PA + 3e5, OIL), 1.33333e-5 + 3.30748e-6, 1e-5);
});

it('settles where pump, slip and valve balance', () => {
  // With u = √Δp: (C_l/µ)u² + (C_t + 0.2 · 3.4e-5)√(2/ρ) u = 2.08e-4, i.e. 4.4444e-11 u² + 3.34536e-7 u − 2.08e-4 = 0,
  // u = (√(1.119145e-13 + 3.697778e-14) − 3.34536e-7)/8.88889e-11 = 577.46, Δp = 333 456 Pa.
  expectWithin(settle(0.2, FEED) - ATMOSPHERE_PA, 333_456, 1e-4);
});

it('settles where the flow that comes in goes out', () => {
  for (const opening of [0.05, 0.3, 1]) {
    const pressurePa = settle(opening, { ...FEED, sweptM3PerS: 1e-4 });
    const outM3PerS = slipFlowM3PerS(FEED, pressurePa, OIL) + valveFlowM3PerS(opening, pressurePa - ATMOSPHERE_PA, OIL);
    if (pressurePa < ATMOSPHERE_PA + 8e5) expectWithin(outM3PerS, 1e-4, 1e-6);
  }
});

it('is kept near 8 bar by the relief valve when the delivery valve is all but shut', () => {
  // 2.08e-4 m³/s through 8e-9 m³/(s Pa) is 0.26 bar above the setting of 8 bar at most.
  const gaugePa = settle(0.01, FEED) - ATMOSPHERE_PA;
  expect(gaugePa).toBeGreaterThan(8e5);
  expect(gaugePa).toBeLessThan(8.26e5);
});
