import { describe, expect, it } from 'vitest';
import { fitSlip, type SlipFit } from '../../../analysis/delivery/fitSlip.ts';
import { fittedFlow } from '../../../analysis/delivery/slipLaw.ts';
import type { HoldState } from '../../../analysis/steady/holdState.ts';
import { type Source, sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal, uniform } from '../../support/random.ts';
import {
  SYNTHETIC_LAW,
  SYNTHETIC_SET_POINTS,
  syntheticFlowM3PerS,
  syntheticHold,
} from '../../support/syntheticHolds.ts';

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
    const holds = SYNTHETIC_SET_POINTS.map((at, index) =>
      syntheticHold(index + 1, { ...at, flowM3PerS: syntheticFlowM3PerS(at) }, 1e-10),
    );
    const fit = fitted(holds);
    expectRelative(fit.coefficients.derivedCapacityM3PerRev, SYNTHETIC_LAW.capacityM3PerRev, 1e-8);
    expectRelative(fit.coefficients.laminarSlipM3, SYNTHETIC_LAW.laminarM3, 1e-5);
    expectRelative(fit.coefficients.orificeSlipM2, SYNTHETIC_LAW.orificeM2, 1e-5);
  });

  it('never gives a negative slip coefficient (seeds 1 to 20)', () => {
    for (let seed = 1; seed <= 20; seed += 1) {
      const next = normal(seed);
      const holds = SYNTHETIC_SET_POINTS.map((at, index) =>
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
    const holds = SYNTHETIC_SET_POINTS.map((at, index) => {
      const flowM3PerS = syntheticFlowM3PerS(at);
      return syntheticHold(index + 1, { ...at, flowM3PerS }, 1e-12, { flowM3PerS: { 'flow.gain': -flowM3PerS } });
    });
    const fit = fitted(holds);
    const sources = sourceTable([gain, ...holds.flatMap((hold) => hold.sources), ...fit.sources]);
    const capacity = stateUncertainty(fit.uncertain.derivedCapacityM3PerRev, sources);
    expectRelative(capacity.standardUncertainty / capacity.value, 0.003, 1e-3);
    expect(capacity.budget[0]?.sourceId).toBe('flow.gain');
  });

  it('fits data in other units alike', () => {
    // By the law: flow in units of a and pressure in units of b scale V_i by a, C_l by a/b (viscosity kept), C_t by a/√b
    // and C_np by a/b.
    const [a, b] = [60e3, 1e-5];
    const holds = SYNTHETIC_SET_POINTS.map((at, index) => ({
      ...at,
      flowM3PerS: syntheticFlowM3PerS(at) * (1 + 1e-3 * Math.sin(index)),
    }));
    const plain = fitted(holds.map((hold, index) => syntheticHold(index + 1, hold, 1e-7))).coefficients;
    const scaled = fitted(
      holds.map((hold, index) =>
        syntheticHold(
          index + 1,
          { ...hold, flowM3PerS: a * hold.flowM3PerS, differentialPressurePa: b * 1e6 * hold.differentialPressurePa },
          a * 1e-7,
        ),
      ),
    ).coefficients;
    expectRelative(scaled.derivedCapacityM3PerRev, a * plain.derivedCapacityM3PerRev, 1e-9);
    expectRelative(scaled.laminarSlipM3, (a / (b * 1e6)) * plain.laminarSlipM3, 1e-7);
    expectRelative(scaled.orificeSlipM2, (a / Math.sqrt(b * 1e6)) * plain.orificeSlipM2, 1e-7);
  });

  it('takes every hold twice for the same law, surer by the root of two', () => {
    // By least squares: doubled rows leave the coefficients and halve their variance; with residuals inside the scatter
    // of the holds nothing is added between them.
    const once = SYNTHETIC_SET_POINTS.map((at, index) =>
      syntheticHold(index + 1, { ...at, flowM3PerS: syntheticFlowM3PerS(at) }, 1e-7),
    );
    const twice = [
      ...once,
      ...SYNTHETIC_SET_POINTS.map((at, index) =>
        syntheticHold(index + 101, { ...at, flowM3PerS: syntheticFlowM3PerS(at) }, 1e-7),
      ),
    ];
    const [one, two] = [fitted(once), fitted(twice)];
    expectRelative(two.coefficients.derivedCapacityM3PerRev, one.coefficients.derivedCapacityM3PerRev, 1e-9);
    const u = (fit: SlipFit, holds: readonly HoldState[]): number =>
      stateUncertainty(
        fit.uncertain.derivedCapacityM3PerRev,
        sourceTable([...holds.flatMap((hold) => hold.sources), ...fit.sources]),
      ).standardUncertainty;
    expectRelative(u(one, once) / u(two, twice), Math.SQRT2, 1e-9);
  });

  it('fits the flow at the inlet, not the flow at the outlet', () => {
    // By the mass balance: an outlet flow a tenth lower everywhere changes nothing while the inlet flow stays.
    const holds = bilinearGrid();
    const drained = holds.map((hold) => ({
      ...hold,
      flowM3PerS: { ...hold.flowM3PerS, value: 0.9 * hold.flowM3PerS.value },
    }));
    expect(fitted(drained).coefficients).toEqual(fitted(holds).coefficients);
  });

  it('refuses a run without a hold, with too few, and with one pressure, and says what to add', () => {
    const holds = bilinearGrid();
    const refusalOf = (some: readonly HoldState[]): unknown => {
      const fit = fitSlip(some);
      return fit.ok ? 'fitted' : fit.reason;
    };
    expect(refusalOf([])).toMatchObject({ code: 'NO_HOLDS' });
    // Three speeds and three pressures ask for all four coefficients; one hold more than coefficients is needed.
    const diagonal = [0, 6, 12].flatMap((at) => holds.slice(at, at + 1));
    expect(refusalOf(diagonal)).toMatchObject({
      code: 'TOO_FEW_HOLDS',
      got: 3,
      needed: 5,
      text: expect.stringMatching(/3 holds for 4 coefficients.*Add 2 holds/),
    });
    expect(refusalOf(holds.filter((hold) => hold.differentialPressurePa.value === 20e5))).toMatchObject({
      code: 'PRESSURE_NOT_VARIED',
    });
  });

  it('refuses holds in which pressure followed speed, where scatter leaves the capacity open', () => {
    // Δp/n within 1 % of one value and 3 % scatter of the flow: slip linear in Δp is then as good as capacity.
    const ratios = [1, 0.99, 1.01, 1.01, 0.99, 1, 1.01];
    const holds = ratios.map((ratio, index) => {
      const speedRevPerS = 6 + 2 * index;
      const at = {
        speedRevPerS,
        differentialPressurePa: 2e4 * speedRevPerS * ratio,
        dynamicViscosityPaS: 0.04,
        densityKgPerM3: 860,
      };
      return syntheticHold(index + 1, { ...at, flowM3PerS: syntheticFlowM3PerS(at) }, 0.03 * syntheticFlowM3PerS(at));
    });
    const fit = fitSlip(holds);
    expect(fit.ok ? 'fitted' : fit.reason).toMatchObject({
      code: 'TERMS_NOT_SEPARABLE',
      text: expect.stringMatching(/low speed and high pressure/),
    });
  });

  it('fits one speed, and says what it could not tell apart', () => {
    // At one speed the laminar coefficient stands for C_l + C_np n µ: by the law, and with C_np fed in here.
    const crossM3PerPa = 1e-13;
    const holds = [0.6e5, 1.2e5, 1.8e5, 2.4e5, 3e5, 3.9e5].map((differentialPressurePa, index) => {
      const at = { speedRevPerS: 15, differentialPressurePa, dynamicViscosityPaS: 0.04, densityKgPerM3: 856 };
      const flowM3PerS = syntheticFlowM3PerS(at) - crossM3PerPa * 15 * differentialPressurePa;
      return syntheticHold(index + 1, { ...at, flowM3PerS }, 1e-10);
    });
    const fit = fitted(holds);
    expect(fit.merged.map(({ code }) => code)).toEqual(['SPEED_NOT_VARIED']);
    expect(fit.terms).not.toContain('speedPressureSlipM3PerPa');
    expectRelative(fit.coefficients.derivedCapacityM3PerRev, SYNTHETIC_LAW.capacityM3PerRev, 1e-6);
    expectRelative(fit.coefficients.laminarSlipM3, SYNTHETIC_LAW.laminarM3 + crossM3PerPa * 15 * 0.04, 1e-4);
  });

  it('takes slip for laminar at two pressures, and says so', () => {
    const holds = bilinearGrid().filter(({ differentialPressurePa }) =>
      [20e5, 140e5].includes(differentialPressurePa.value),
    );
    const fit = fitted(holds);
    expect(fit.merged.map(({ code }) => code)).toEqual(['ORIFICE_NOT_SEPARATED']);
    expectRelative(fit.coefficients.derivedCapacityM3PerRev, 20e-6, 1e-9);
  });

  it('refuses flow that does not rise with speed', () => {
    const holds = SYNTHETIC_SET_POINTS.map((at, index) => syntheticHold(index + 1, { ...at, flowM3PerS: -1e-4 }, 1e-7));
    const fit = fitSlip(holds);
    expect(fit.ok ? 'fitted' : fit.reason.code).toBe('NOT_PHYSICAL');
  });

  it('will not be called with a hold that was left out or holds no number', () => {
    const [first, ...others] = bilinearGrid();
    if (first === undefined) throw new Error('no hold');
    const leftOut = { ...first, leftOut: { cause: 'person', reason: 'valve moved' } } as const;
    expect(() => fitSlip([leftOut, ...others])).toThrow(/hold 1 is left out/);
    const nowhere = { ...first, dynamicViscosityPaS: { value: Number.NaN, sensitivities: {} } };
    expect(() => fitSlip([nowhere, ...others])).toThrow(/dynamicViscosityPaS of hold 1/);
  });
});
