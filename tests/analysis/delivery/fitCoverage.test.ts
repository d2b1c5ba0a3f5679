import { describe, expect, it } from 'vitest';
import { deliveredFlow } from '../../../analysis/delivery/deliveredFlow.ts';
import { fitSlip } from '../../../analysis/delivery/fitSlip.ts';
import type { HoldState } from '../../../analysis/steady/holdState.ts';
import { exactly, type Source, sourceTable, type Uncertain } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { accepted } from '../../support/accepted.ts';
import { normal, uniform } from '../../support/random.ts';
import {
  SYNTHETIC_LAW,
  SYNTHETIC_SET_POINTS,
  syntheticFlowM3PerS,
  syntheticHold,
} from '../../support/syntheticHolds.ts';

const BULK_MODULUS = exactly(1.5e9);
const DRAWS = 300;
const DUTY = { speedRevPerS: 15, differentialPressurePa: 3e5, dynamicViscosityPaS: 0.043, densityKgPerM3: 856 };

/** Standard uncertainties of the bench; flow scatters within holds by the first and between them by the second. */
const U = { flowGain: 0.004, flowOffset: 2e-7, pressureGain: 0.005, speedGain: 0.001, viscosity: 0.03 };
const SCATTER = { within: 3e-7, between: 4e-7 };

const NUMBERS: Readonly<Record<'normal' | 'rectangular', (seed: number) => () => number>> = {
  normal,
  // Standard deviation 1: from −√3 to √3.
  rectangular: (seed) => {
    const next = uniform(seed);
    return () => Math.sqrt(3) * (2 * next() - 1);
  },
};

function benchDrawn(next: () => number): { holds: HoldState[]; viscosityError: number } {
  const error = {
    gain: U.flowGain * next(),
    offset: U.flowOffset * next(),
    pressure: U.pressureGain * next(),
    speed: U.speedGain * next(),
    viscosity: U.viscosity * next(),
  };
  const holds = SYNTHETIC_SET_POINTS.map((at, index) => {
    const scatter = SCATTER.within * next() + SCATTER.between * next();
    const flowM3PerS = syntheticFlowM3PerS(at) * (1 + error.gain) + error.offset + scatter;
    const speedRevPerS = at.speedRevPerS * (1 + error.speed);
    const differentialPressurePa = at.differentialPressurePa * (1 + error.pressure);
    const dynamicViscosityPaS = at.dynamicViscosityPaS * (1 + error.viscosity);
    return syntheticHold(
      index + 1,
      { ...at, flowM3PerS, speedRevPerS, differentialPressurePa, dynamicViscosityPaS },
      SCATTER.within,
      {
        flowM3PerS: { flowGain: -flowM3PerS, flowOffset: -1 },
        speedRevPerS: { speedGain: -speedRevPerS },
        differentialPressurePa: { pressureGain: -differentialPressurePa },
        dynamicViscosityPaS: { viscosity: -dynamicViscosityPaS },
      },
    );
  });
  return { holds, viscosityError: error.viscosity };
}

/** How many of the draws hold the truth in capacity, and in the flow at the duty. */
function heldCounts(shape: 'normal' | 'rectangular', seed: number): { capacity: number; flow: number } {
  const next = NUMBERS[shape](seed);
  const common = Object.entries(U).map(
    ([id, standardUncertainty]): Source => ({
      id,
      label: id,
      kind: 'calibration',
      standardUncertainty,
      degreesOfFreedom: null,
      shape,
      pooledAs: null,
    }),
  );
  const counts = { capacity: 0, flow: 0 };
  const trueDutyFlow = syntheticFlowM3PerS(DUTY) * (1 - DUTY.differentialPressurePa / BULK_MODULUS.value);
  for (let draw = 0; draw < DRAWS; draw += 1) {
    const { holds, viscosityError } = benchDrawn(next);
    const fit = accepted(fitSlip(holds));
    const table = sourceTable([...common, ...holds.flatMap((hold) => hold.sources), ...fit.sources]);
    const holdsTruth = (uncertain: Uncertain, truth: number): boolean => {
      const stated = stateUncertainty(uncertain, table);
      return Math.abs(stated.value - truth) <= stated.expandedUncertainty;
    };
    // The duty is spoken with the same oil record, so with the same error of viscosity.
    const viscosityPaS = DUTY.dynamicViscosityPaS * (1 + viscosityError);
    const at = {
      speedRevPerS: exactly(DUTY.speedRevPerS),
      differentialPressurePa: exactly(DUTY.differentialPressurePa),
      dynamicViscosityPaS: { value: viscosityPaS, sensitivities: { viscosity: -viscosityPaS } },
      densityKgPerM3: exactly(DUTY.densityKgPerM3),
    };
    if (holdsTruth(fit.uncertain.derivedCapacityM3PerRev, SYNTHETIC_LAW.capacityM3PerRev)) counts.capacity += 1;
    if (holdsTruth(deliveredFlow(fit, null, at, BULK_MODULUS), trueDutyFlow)) counts.flow += 1;
  }
  return counts;
}

/** Binomial sums for 300 draws at p = 0.95: P(X < 270) = 1.3e-4, P(X > 297) = 2.9e-5. */
function expectNinetyFive(count: number): void {
  expect(count).toBeGreaterThanOrEqual(270);
  expect(count).toBeLessThanOrEqual(297);
}

describe('the 95 % intervals of the slip law', () => {
  it('hold capacity and duty flow with normal errors (300 draws, seed 2026)', () => {
    const { capacity, flow } = heldCounts('normal', 2026);
    expectNinetyFive(capacity);
    expectNinetyFive(flow);
  });

  it('hold capacity and duty flow with rectangular errors (300 draws, seed 2027)', () => {
    // A dominating rectangular error lies inside ±1.73 u, so that ±1.96 u may hold it always: no upper bound here.
    const { capacity, flow } = heldCounts('rectangular', 2027);
    expect(capacity).toBeGreaterThanOrEqual(270);
    expect(flow).toBeGreaterThanOrEqual(270);
  });
});
