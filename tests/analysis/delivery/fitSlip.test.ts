import { describe, expect, it } from 'vitest';
import { fitSlip, type SlipFit } from '../../../analysis/delivery/fitSlip.ts';
import { fittedFlow } from '../../../analysis/delivery/slipLaw.ts';
import type { HoldState } from '../../../analysis/steady/holdState.ts';
import { type Source, sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal, uniform } from '../../support/random.ts';
import { type HoldMakings, syntheticHold } from '../../support/syntheticHolds.ts';

function fitted(holds: readonly HoldState[]): SlipFit {
  const fit = fitSlip(holds);
  if (!fit.ok) throw new Error(fit.reason.code);
  return fit.value;
}

/** Exact bilinear data: q = V_i n − k Δp − c n Δp, on a full grid of five speeds and five pressures. */
const BILINEAR = {
  capacityM3PerRev: 20e-6,
  leakM3PerSPerPa: 0.012e-3 / 60 / 1e5,
  crossM3PerPa: 2e-9 / 1e5,
} as const;

function bilinearGrid(): HoldState[] {
  const speeds = [600, 900, 1200, 1500, 1800].map((rpm) => rpm / 60);
  const pressures = [20, 50, 80, 110, 140].map((bar) => bar * 1e5);
  return speeds
    .flatMap((n) => pressures.map((dp) => ({ n, dp })))
    .map(({ n, dp }, index) =>
      syntheticHold(
        index + 1,
        {
          speedRevPerS: n,
          differentialPressurePa: dp,
          dynamicViscosityPaS: 0.03,
          densityKgPerM3: 870,
          flowM3PerS: BILINEAR.capacityM3PerRev * n - BILINEAR.leakM3PerSPerPa * dp - BILINEAR.crossM3PerPa * n * dp,
        },
        1e-9,
      ),
    );
}

const TRUTH = { capacityM3PerRev: 13.9e-6, laminarM3: 2.2e-12, orificeM2: 5e-8 } as const;

function trueFlowM3PerS(at: Omit<HoldMakings, 'flowM3PerS'>): number {
  return (
    TRUTH.capacityM3PerRev * at.speedRevPerS -
    (TRUTH.laminarM3 * at.differentialPressurePa) / at.dynamicViscosityPaS -
    TRUTH.orificeM2 * Math.sqrt((2 * at.differentialPressurePa) / at.densityKgPerM3)
  );
}

const SET_POINTS = [15, 9, 18.75].flatMap((speedRevPerS) =>
  [0.6e5, 1.8e5, 3e5, 3.9e5].map((differentialPressurePa, index) => ({
    speedRevPerS,
    differentialPressurePa,
    dynamicViscosityPaS: 0.045 - 0.001 * index,
    densityKgPerM3: 856,
  })),
);

describe('fitSlip', () => {
  it('recovers the derived capacity of exact bilinear data', () => {
    // Constructed data; the method's routes agree on 20.000 cm³/rev and η_V(1500 r/min, 110 bar) = 0.945 (two-step
    // regression in the manner of ISO 8426, Toet et al., Energies 12 (2019) 415, for the method).
    const fit = fitted(bilinearGrid());
    expectRelative(fit.coefficients.derivedCapacityM3PerRev, 20e-6, 1e-9);
    expectRelative(fit.coefficients.laminarSlipM3, BILINEAR.leakM3PerSPerPa * 0.03, 1e-6);
    expectRelative(fit.coefficients.speedPressureSlipM3PerPa, BILINEAR.crossM3PerPa, 1e-6);
    const flow = fittedFlow(fit, {
      speedRevPerS: 25,
      differentialPressurePa: 110e5,
      dynamicViscosityPaS: 0.03,
      densityKgPerM3: 870,
    });
    expectRelative(flow.value / (fit.coefficients.derivedCapacityM3PerRev * 25), 0.945, 1e-9);
  });

  it('fits shuffled holds alike', () => {
    const holds = bilinearGrid();
    const next = uniform(11);
    const shuffled = holds
      .map((hold) => ({ hold, key: next() }))
      .sort((a, b) => a.key - b.key)
      .map(({ hold }) => hold);
    expectRelative(
      fitted(shuffled).coefficients.derivedCapacityM3PerRev,
      fitted(holds).coefficients.derivedCapacityM3PerRev,
      1e-11,
    );
  });

  it('returns the slip it was fed, laminar and orifice apart', () => {
    const holds = SET_POINTS.map((at, index) =>
      syntheticHold(index + 1, { ...at, flowM3PerS: trueFlowM3PerS(at) }, 1e-10),
    );
    const fit = fitted(holds);
    expectRelative(fit.coefficients.derivedCapacityM3PerRev, TRUTH.capacityM3PerRev, 1e-8);
    expectRelative(fit.coefficients.laminarSlipM3, TRUTH.laminarM3, 1e-5);
    expectRelative(fit.coefficients.orificeSlipM2, TRUTH.orificeM2, 1e-5);
  });

  it('never gives a negative slip coefficient (seeds 1 to 20)', () => {
    for (let seed = 1; seed <= 20; seed += 1) {
      const next = normal(seed);
      const holds = SET_POINTS.map((at, index) =>
        syntheticHold(index + 1, { ...at, flowM3PerS: 13.9e-6 * at.speedRevPerS + 4e-7 * next() }, 4e-7),
      );
      const { laminarSlipM3, orificeSlipM2, speedPressureSlipM3PerPa } = fitted(holds).coefficients;
      expect(Math.min(laminarSlipM3, orificeSlipM2, speedPressureSlipM3PerPa)).toBeGreaterThanOrEqual(0);
    }
  });

  it('lets a gain error of the flow meter through to the capacity in full', () => {
    // By hand: q → q (1 + g) scales every coefficient of a linear fit, so u(V_i)/V_i = u(g).
    const gain: Source = {
      id: 'flow.gain',
      label: 'flow meter, gain',
      kind: 'calibration',
      standardUncertainty: 0.003,
      degreesOfFreedom: null,
      shape: 'normal',
      pooledAs: null,
    };
    const holds = SET_POINTS.map((at, index) => {
      const flowM3PerS = trueFlowM3PerS(at);
      return syntheticHold(index + 1, { ...at, flowM3PerS }, 1e-12, { flowM3PerS: { 'flow.gain': -flowM3PerS } });
    });
    const fit = fitted(holds);
    const sources = sourceTable([gain, ...holds.flatMap((hold) => hold.sources), ...fit.sources]);
    const capacity = stateUncertainty(fit.uncertain.derivedCapacityM3PerRev, sources);
    expectRelative(capacity.standardUncertainty / capacity.value, 0.003, 1e-3);
    expect(capacity.budget[0]?.sourceId).toBe('flow.gain');
  });

  it('holds the true capacity in 95 % of fits with gain, offset and scatter drawn anew (300 draws, seed 2026)', () => {
    const u = { gain: 0.004, offsetM3PerS: 2e-7, pressureGain: 0.005, viscosity: 0.03, scatterM3PerS: 3e-7 };
    const calibration = (id: string, standardUncertainty: number): Source => ({
      id,
      label: id,
      kind: 'calibration',
      standardUncertainty,
      degreesOfFreedom: null,
      shape: 'normal',
      pooledAs: null,
    });
    const common = [
      calibration('flow.gain', u.gain),
      calibration('flow.offset', u.offsetM3PerS),
      calibration('deliveryPressure.gain', u.pressureGain),
      calibration('oil.viscosity', u.viscosity),
    ];
    const next = normal(2026);
    let held = 0;
    const draws = 300;
    for (let draw = 0; draw < draws; draw += 1) {
      const error = {
        gain: u.gain * next(),
        offset: u.offsetM3PerS * next(),
        p: u.pressureGain * next(),
        mu: u.viscosity * next(),
      };
      const holds = SET_POINTS.map((at, index) => {
        const flowM3PerS = trueFlowM3PerS(at) * (1 + error.gain) + error.offset + u.scatterM3PerS * next();
        const differentialPressurePa = at.differentialPressurePa * (1 + error.p);
        const dynamicViscosityPaS = at.dynamicViscosityPaS * (1 + error.mu);
        return syntheticHold(
          index + 1,
          { ...at, flowM3PerS, differentialPressurePa, dynamicViscosityPaS },
          u.scatterM3PerS,
          {
            flowM3PerS: { 'flow.gain': -flowM3PerS, 'flow.offset': -1 },
            differentialPressurePa: { 'deliveryPressure.gain': -differentialPressurePa },
            dynamicViscosityPaS: { 'oil.viscosity': dynamicViscosityPaS },
          },
        );
      });
      const fit = fitted(holds);
      const sources = sourceTable([...common, ...holds.flatMap((hold) => hold.sources), ...fit.sources]);
      const stated = stateUncertainty(fit.uncertain.derivedCapacityM3PerRev, sources);
      if (Math.abs(stated.value - TRUTH.capacityM3PerRev) <= stated.expandedUncertainty) held += 1;
    }
    // Binomial sums for 300 draws at p = 0.95: P(X < 270) = 1.3e-4, P(X > 297) = 2.9e-5.
    expect(held).toBeGreaterThanOrEqual(270);
    expect(held).toBeLessThanOrEqual(297);
  });

  it('refuses a run without a hold, with too few, and with one pressure', () => {
    const holds = bilinearGrid();
    const refusalOf = (some: readonly HoldState[]): string => {
      const fit = fitSlip(some);
      return fit.ok ? 'fitted' : fit.reason.code;
    };
    expect(refusalOf([])).toBe('NO_HOLDS');
    expect(refusalOf(holds.slice(0, 2))).toBe('TOO_FEW_HOLDS');
    expect(refusalOf(holds.filter((hold) => hold.differentialPressurePa.value === 20e5))).toBe('PRESSURE_NOT_VARIED');
  });

  it('refuses flow that does not rise with speed', () => {
    const holds = SET_POINTS.map((at, index) => syntheticHold(index + 1, { ...at, flowM3PerS: -1e-4 }, 1e-7));
    const fit = fitSlip(holds);
    expect(fit.ok ? 'fitted' : fit.reason.code).toBe('NOT_PHYSICAL');
  });
});
