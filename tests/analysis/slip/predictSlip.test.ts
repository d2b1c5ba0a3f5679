import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { oilState } from '../../../analysis/oil/oilState.ts';
import { type ForwardSlip, forwardSlip, type SlipState } from '../../../analysis/slip/forwardSlip.ts';
import { type GapMap, withChange } from '../../../analysis/slip/gapMap.ts';
import { predictDelivery } from '../../../analysis/slip/predictDelivery.ts';
import { type PredictedSlip, predictSlip } from '../../../analysis/slip/predictSlip.ts';
import { slipDifference } from '../../../analysis/slip/slipDifference.ts';
import { exactly, sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { feedSheet, MATERIALS, mapOf, reading, slipOil, slipState } from '../../support/gapSheets.ts';
import { samplePump, sampleStrip } from '../../support/samples.ts';

const feed = mapOf(feedSheet());

function forward(map: GapMap, state: SlipState): ForwardSlip {
  const slip = forwardSlip(map, state);
  if (!slip.ok) throw new Error(slip.reason.text);
  return slip.value;
}

function predicted(map: GapMap, state: SlipState): PredictedSlip {
  const slip = predictSlip(map, state);
  if (!slip.ok) throw new Error(slip.reason.text);
  return slip.value;
}

const direct = (part: string, valueM: number) => ({ method: 'direct', part, clearanceM: reading(valueM) });

describe('slip from clearances, forwards', () => {
  it('is the sum of its gaps, worked by hand for gears without bushes at the temperature of the measurement', () => {
    // By hand [mm]: tips, two gears: b h³/(12 z_s L), z_s = 12 · 3.4/2π, L 1.9, b 20, h 0.04 and 0.042. Faces: blind,
    // K/4 on each of four, K = π h³/(6 ln 2), halves of 0.05 at 0.025 (1 ± 0.5). Drag b h π 42/2 a gear.
    const map = mapOf(
      feedSheet({ shaftsInBushes: [], tipClearances: [direct('driver', 40e-6), direct('driven', 42e-6)] }),
    );
    const state = slipState({ temperatureK: 293.15 });
    const lands = ((12 * 3.4) / (2 * Math.PI)) * 1.9;
    const tips = ((20 * (0.04 ** 3 + 0.042 ** 3)) / (12 * lands)) * 1e-9;
    const faces = 2 * ((Math.PI * (0.0375 ** 3 + 0.0125 ** 3)) / (24 * Math.LN2)) * 1e-9;
    const slip = forward(map, state);
    const { dynamicViscosityPaS } = oilState(state.oil, 293.15);
    expectRelative(slip.slipM3PerS, ((tips + faces) * 3e5) / dynamicViscosityPaS, 1e-6);
    expectRelative(slip.places[0]?.share ?? Number.NaN, Math.max(tips, faces) / (tips + faces), 1e-6);
    expectRelative(slip.dragM3PerRev, (20 * (0.04 + 0.042) * Math.PI * 42 * 1e-9) / 2, 1e-9);
  });

  it('says where most of it goes', () => {
    const slip = forward(feed, slipState());
    expectRelative(
      slip.gaps.reduce((sum, { share }) => sum + share, 0),
      1,
      1e-12,
    );
    expect(slip.inWords).toMatch(/^\d+ % goes over the faces, \d+ % over the tips, \d+ % along the shafts$/);
    expect(slip.isLaminar).toBe(true);
    expect(slip.validity).toContain('laminar in every gap');
    expectRelative(predicted(feed, slipState()).slipM3PerS.value, slip.slipM3PerS, 1e-15);
  });

  it('goes with the pressure, against the viscosity, and does not ask for the speed (seed 47)', () => {
    // Wilson (1946): slip ∝ Δp/µ, independent of n; doubling µ halves it.
    const once = forward(feed, slipState()).slipM3PerS;
    expectRelative(forward(feed, slipState({ oil: slipOil(2) })).slipM3PerS, once / 2, 1e-12);
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 50, noNaN: true }), (factor) => {
        expectRelative(
          forward(feed, slipState({ differentialPressurePa: 3e5 * factor })).slipM3PerS,
          factor * once,
          1e-12,
        );
        expect(forward(feed, slipState({ speedRevPerS: factor })).slipM3PerS).toBe(once);
      }),
      { seed: 47, numRuns: 30 },
    );
  });

  it('rises with tip clearance, end float and pressure (seed 48)', () => {
    const growth = fc.double({ min: 1e-7, max: 2e-4, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom('endFloat', 'tip.driver', 'tip.driven'), growth, growth, (id, first, more) => {
        const narrow = forward(withChange(feed, id, first), slipState());
        const wide = forward(withChange(feed, id, first + more), slipState());
        expect(wide.slipM3PerS).toBeGreaterThan(narrow.slipM3PerS);
        const pressed = forward(feed, slipState({ differentialPressurePa: 3e5 + 1e9 * more }));
        expect(pressed.slipM3PerS).toBeGreaterThan(forward(feed, slipState()).slipM3PerS);
      }),
      { seed: 48, numRuns: 50 },
    );
  });

  it('need not rise with a worn bush: a gear that leans shuts its own tips', () => {
    const closed = mapOf(
      feedSheet({ shaftsInBushes: feedSheet().shaftsInBushes.map((bush) => ({ ...bush, isDrained: false })) }),
    );
    const worn = withChange(closed, 'bush.1', 20e-6);
    expect(forward(worn, slipState()).slipM3PerS).toBeLessThan(forward(closed, slipState()).slipM3PerS);
  });

  it('doubles over 60 K in an aluminium body on steel gears at the same viscosity, and hardly stirs in cast iron', () => {
    // By hand, clearances cold 50 µm (20 mm), 40 and 42 µm (42 mm): end float 50 + 60 (22.5 · 20.05 − 11.8 · 20) 1e-3
    // = 62.9075 µm, cubed 1.99; tips cubed 2.40 and 2.30. Lean and bushes keep out: no bushes.
    const sheet = feedSheet({ shaftsInBushes: [] });
    const conductance = (materials: Parameters<typeof mapOf>[1], temperatureK: number): number => {
      const state = slipState({ temperatureK });
      return forward(mapOf(sheet, materials), state).slipM3PerS * oilState(state.oil, temperatureK).dynamicViscosityPaS;
    };
    const growth = (materials: Parameters<typeof mapOf>[1]): number =>
      conductance(materials, 353.15) / conductance(materials, 293.15);
    expect(growth({ ...MATERIALS, body: 'aluminium' })).toBeGreaterThan(1.99);
    expect(growth({ ...MATERIALS, body: 'aluminium' })).toBeLessThan(2.4);
    expect(Math.abs(growth(MATERIALS) - 1)).toBeLessThan(0.1);
    expect(growth({ ...MATERIALS, body: 'steel' })).toBeCloseTo(1, 2);
  });

  it('trusts itself less when the materials are not known', () => {
    const u = (materials: Parameters<typeof mapOf>[1]): number => {
      const { slipM3PerS, sources } = predicted(mapOf(feedSheet(), materials), slipState({ temperatureK: 353.15 }));
      return stateUncertainty(slipM3PerS, sourceTable(sources)).standardUncertainty / slipM3PerS.value;
    };
    expect(u({ body: null, gears: null, bushes: null })).toBeGreaterThan(u(MATERIALS));
  });

  it('says where the flow is no longer laminar', () => {
    const thin = forward(
      withChange(feed, 'endFloat', 6e-4),
      slipState({ temperatureK: 373.15, differentialPressurePa: 2e7 }),
    );
    expect(thin.isLaminar).toBe(false);
    expect(thin.validity).toContain('not laminar over the faces');
  });

  it('carries every measurement to the slip, a wide clearance with the cube it deserves', () => {
    // Second route: the sources of the end float have sensitivity ±1, and the mean slope of x³ over ±u is 3 x² + u².
    const sheet = feedSheet({ shaftsInBushes: [] });
    const state = slipState({ temperatureK: 293.15 });
    const { slipM3PerS, gaps } = predicted(mapOf(sheet), state);
    const faces = gaps.filter(({ place }) => place === 'over the faces').reduce((sum, gap) => sum + gap.slipM3PerS, 0);
    const [x, u] = [50e-6, Math.hypot(3e-6, 2e-6, 4e-6, 4e-6)];
    const slope = (faces / x ** 3) * (3 * x * x + u * u);
    expectRelative(slipM3PerS.sensitivities['strip.endFloat.recessDepth'] ?? Number.NaN, slope, 1e-9);
    expectRelative(slipM3PerS.sensitivities['strip.endFloat.gearWidth'] ?? Number.NaN, -slope, 1e-9);
    expectRelative(slipM3PerS.sensitivities['oil.viscosity'] ?? Number.NaN, -slipM3PerS.value, 1e-9);
  });

  it('refuses parts that bind when warm, a gear that runs on the casing, and states that are none', () => {
    expect(forwardSlip(withChange(feed, 'endFloat', -60e-6), slipState())).toMatchObject({
      ok: false,
      reason: { code: 'NEGATIVE_CLEARANCE', quantity: 'end float, warm [m]', limit: 0 },
    });
    expect(forwardSlip(withChange(feed, 'tip.driver', -34e-6), slipState())).toMatchObject({
      ok: false,
      reason: { code: 'GEAR_TOUCHES_CASING', quantity: 'lean of the gear, driver [m]' },
    });
    expect(predictSlip(withChange(feed, 'bush.0', -60e-6), slipState())).toMatchObject({
      ok: false,
      reason: { code: 'NEGATIVE_CLEARANCE' },
    });
    expect(() => forwardSlip(feed, slipState({ differentialPressurePa: -1 }))).toThrow(RangeError);
    expect(() => forwardSlip(feed, slipState({ speedRevPerS: Number.NaN }))).toThrow(RangeError);
    expect(() => withChange(feed, 'gasket', 1e-6)).toThrow(RangeError);
  });

  it('predicts the demo pumps with the materials of their records', () => {
    for (const id of ['dredger-feed-pump', 'dredger-return-pump'] as const) {
      const slip = predicted(mapOf(sampleStrip(id), samplePump(id).materials), slipState());
      const stated = stateUncertainty(slip.slipM3PerS, sourceTable(slip.sources));
      expect(stated.value).toBeGreaterThan(0);
      expect(stated.standardUncertainty).toBeLessThan(stated.value);
      expect(slip.isLaminar).toBe(true);
    }
  });
});

describe('what-if', () => {
  it('shows what a thinner gasket saves, with less doubt than the slips themselves', () => {
    const before = predicted(feed, slipState());
    const after = predicted(withChange(feed, 'endFloat', -10e-6), slipState());
    const { differenceM3PerS, sources } = slipDifference(before, after);
    expectRelative(differenceM3PerS.value, after.slipM3PerS.value - before.slipM3PerS.value, 1e-12);
    const u = (of: PredictedSlip['slipM3PerS'], from: PredictedSlip['sources']): number =>
      stateUncertainty(of, sourceTable(from)).standardUncertainty;
    expect(differenceM3PerS.value).toBeLessThan(0);
    expect(u(differenceM3PerS, sources)).toBeLessThan(u(before.slipM3PerS, before.sources));
  });

  it('is nothing, exactly, where nothing changed', () => {
    const { differenceM3PerS, sources } = slipDifference(predicted(feed, slipState()), predicted(feed, slipState()));
    expect(differenceM3PerS.value).toBe(0);
    expect(stateUncertainty(differenceM3PerS, sourceTable(sources)).standardUncertainty).toBe(0);
  });

  it('counts a clearance that was measured anew as a source of its own', () => {
    // By hand: after a direct measurement of the end float the four sources of the sum stand alone on the 'before' side.
    const again = mapOf(
      feedSheet({
        tipClearances: [{ ...direct('driver', 40e-6), clearanceM: reading(40e-6, 5e-6) }, direct('driven', 42e-6)],
      }),
    );
    const other = mapOf(
      feedSheet({
        tipClearances: [{ ...direct('driver', 40e-6), clearanceM: reading(40e-6, 2e-6) }, direct('driven', 42e-6)],
      }),
    );
    const { sources, differenceM3PerS } = slipDifference(predicted(again, slipState()), predicted(other, slipState()));
    expect(
      sources
        .filter(({ id }) => id.startsWith('strip.tip.driver'))
        .map(({ id, standardUncertainty }) => [id, standardUncertainty]),
    ).toEqual([
      ['strip.tip.driver', 5e-6],
      ['strip.tip.driver.after', 2e-6],
    ]);
    expect(stateUncertainty(differenceM3PerS, sourceTable(sources)).standardUncertainty).toBeGreaterThan(0);
  });
});

describe('delivery from clearances', () => {
  it('adds the drag to the swept volume and takes the slip off the flow', () => {
    // By hand: 10 + 0.1 cm³ at 20 rev/s: 202 cm³/s, less 2: 200; η_v = 200/202.
    const delivery = predictDelivery(exactly(10e-6), { slipM3PerS: exactly(2e-6), dragM3PerRev: exactly(0.1e-6) }, 20);
    expectRelative(delivery.derivedCapacityM3PerRev.value, 10.1e-6, 1e-12);
    expectRelative(delivery.flowM3PerS.value, 200e-6, 1e-12);
    expectRelative(delivery.volumetricEfficiency.value, 200 / 202, 1e-12);
  });

  it('carries the sources of both, by central differences of the formula', () => {
    const at = (volume: number, slip: number): number =>
      predictDelivery(exactly(volume), { slipM3PerS: exactly(slip), dragM3PerRev: exactly(0.1e-6) }, 20)
        .volumetricEfficiency.value;
    const { sensitivities } = predictDelivery(
      { value: 10e-6, sensitivities: { volume: 1 } },
      { slipM3PerS: { value: 2e-6, sensitivities: { slip: 1 } }, dragM3PerRev: exactly(0.1e-6) },
      20,
    ).volumetricEfficiency;
    const step = 1e-10;
    expectRelative(
      sensitivities.volume ?? Number.NaN,
      (at(10e-6 + step, 2e-6) - at(10e-6 - step, 2e-6)) / (2 * step),
      1e-6,
    );
    expectRelative(
      sensitivities.slip ?? Number.NaN,
      (at(10e-6, 2e-6 + step) - at(10e-6, 2e-6 - step)) / (2 * step),
      1e-6,
    );
  });

  it('refuses a standstill and a pump that moves nothing', () => {
    const still = { slipM3PerS: exactly(0), dragM3PerRev: exactly(-1e-6) };
    expect(() => predictDelivery(exactly(1e-5), still, 0)).toThrow(RangeError);
    expect(() => predictDelivery(exactly(1e-6), still, 1)).toThrow(RangeError);
  });
});
