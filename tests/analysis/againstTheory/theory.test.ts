import { describe, expect, it } from 'vitest';
import { agreementOf } from '../../../analysis/againstTheory/agreement.ts';
import { capacityAgainstTheory } from '../../../analysis/againstTheory/capacityAgainstTheory.ts';
import { equivalentClearances } from '../../../analysis/againstTheory/equivalentClearances.ts';
import { slipAgainstTheory } from '../../../analysis/againstTheory/slipAgainstTheory.ts';
import { measuredSlip } from '../../../analysis/delivery/measuredSlip.ts';
import { mergeSources } from '../../../analysis/efficiency/mergeSources.ts';
import { no } from '../../../analysis/outcome.ts';
import { type GapMap, gapMap, shapeQuantity } from '../../../analysis/slip/gapMap.ts';
import { predictSlip } from '../../../analysis/slip/predictSlip.ts';
import type { HoldState } from '../../../analysis/steady/holdState.ts';
import { exactly, type Source, type Uncertain } from '../../../analysis/uncertainty/source.ts';
import type { Stated } from '../../../analysis/uncertainty/stated.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { feedSheet, mapOf, slipOil, slipState } from '../../support/gapSheets.ts';
import { syntheticHold } from '../../support/syntheticHolds.ts';
import { measured } from '../efficiency/inventedLawRun.ts';

const stateWith =
  (...sources: readonly Source[]) =>
  (value: Uncertain): Stated =>
    stateUncertainty(value, mergeSources(sources));

const K95 = 1.959964; // 95 % of a normal error, any table.

describe('two values of one thing', () => {
  const [a, b] = [measured('a', 10, 3), measured('b', 4, 4)];
  const state = stateWith(a.source, b.source);

  it('agree where their difference is within its own expanded uncertainty', () => {
    // By hand: 6 ± 1.96 √(3² + 4²) = 6 ± 9.8; the ratio 2.5 with 2.5 √(0.3² + 1²).
    const agreement = agreementOf(a.value, b.value, state);
    expect(agreement.difference.value).toBe(6);
    expectRelative(agreement.difference.expandedUncertainty, 5 * K95, 1e-6);
    expectRelative(agreement.ratio?.value ?? 0, 2.5, 1e-12);
    expectRelative(agreement.ratio?.standardUncertainty ?? 0, 2.5 * Math.hypot(0.3, 1), 1e-12);
    expect(agreement.agrees).toBe(true);
    expect(agreementOf({ ...a.value, value: 14 }, b.value, state).agrees).toBe(false);
  });

  it('cancel what both share', () => {
    const [one, other] = [a.value, { value: 9, sensitivities: { a: 1 } }];
    const agreement = agreementOf(one, other, state);
    expect(agreement.difference.expandedUncertainty).toBe(0);
    expect(agreement.agrees).toBe(false);
  });

  it('have no ratio where nothing is expected', () => {
    expect(agreementOf(a.value, exactly(0), state).ratio).toBeNull();
  });
});

describe('derived capacity against theory', () => {
  const capacity = measured('fit', 14.1e-6, 0.03e-6);
  const swept = measured('geometry', 13.9e-6, 0.04e-6);
  const drag = measured('drag', 0.15e-6, 0.02e-6);
  const state = stateWith(capacity.source, swept.source, drag.source);

  it('is held against swept volume and predicted drag', () => {
    // By hand: 14.1 − 14.05 = 0.05 cm³, u = √(0.03² + 0.04² + 0.02²) = 0.05385.
    const against = capacityAgainstTheory(capacity.value, swept.value, { dragM3PerRev: drag.value }, state);
    expectRelative(against.expected.value, 14.05e-6, 1e-12);
    expectRelative(against.difference.value, 0.05e-6, 1e-8);
    expectRelative(against.difference.standardUncertainty, Math.sqrt(29) * 0.01e-6, 1e-9);
    expect(against.agrees).toBe(true);
    expect(against.inWords).toBe('The derived capacity agrees with swept volume and predicted drag.');
    expectRelative(against.predictedDrag?.value ?? 0, 0.15e-6, 1e-12);
  });

  it('is held against geometry alone without a strip sheet, and says what to look at where it differs', () => {
    // 0.2 cm³ against 1.96 · 0.05.
    const against = capacityAgainstTheory(capacity.value, swept.value, null, state);
    expect(against.predictedDrag).toBeNull();
    expect(against.agrees).toBe(false);
    expect(against.inWords).toMatch(/does not agree with the swept volume alone.*calibration/);
  });
});

const CAPACITY: Uncertain = { value: 14e-6, sensitivities: { capacity: 1 } };

/** A hold of a pump that slips so many times what a gap map predicts. */
function holdSlipping(number: number, map: GapMap, times: number, differentialPressurePa = 3e5): HoldState {
  const state = slipState({ differentialPressurePa: Math.max(0, differentialPressurePa) });
  const { slipM3PerS } = accepted(predictSlip(map, state));
  const flowM3PerS = 14e-6 * state.speedRevPerS - times * slipM3PerS.value;
  const makings = {
    speedRevPerS: 15,
    differentialPressurePa,
    dynamicViscosityPaS: 0.034,
    densityKgPerM3: 862,
    flowM3PerS,
  };
  return {
    ...syntheticHold(number, makings, 1e-8, { differentialPressurePa: { gauge: -1 } }),
    oilTemperatureK: { value: 313.15, sensitivities: { thermometer: 1 } },
  };
}

const GAUGE = measured('gauge', 0, 300).source;
const THERMOMETER = measured('thermometer', 0, 0.2).source;
const CAPACITY_SOURCE = measured('capacity', 14e-6, 0.02e-6).source;

function stateOf(map: GapMap, holds: readonly HoldState[]) {
  const { sources } = accepted(predictSlip(map, slipState()));
  const own = holds.flatMap((hold) => hold.sources);
  return stateWith(GAUGE, THERMOMETER, CAPACITY_SOURCE, ...sources, ...own);
}

const fitOf = {
  uncertain: {
    derivedCapacityM3PerRev: CAPACITY,
    laminarSlipM3: exactly(0),
    orificeSlipM2: exactly(0),
    speedPressureSlipM3PerPa: exactly(0),
  },
};

describe('measured slip against the strip sheet', () => {
  const map = mapOf(feedSheet());

  it('is V_i n − q with the errors of all three', () => {
    const hold = { ...holdSlipping(1, map, 1), speedRevPerS: { value: 15, sensitivities: { tacho: -15 } } };
    const slip = measuredSlip(hold, CAPACITY);
    // By hand: ∂/∂V_i = 15, ∂/∂n · ∂n/∂tacho = 14e-6 · −15, ∂/∂q = −1.
    expectRelative(slip.value, 14e-6 * 15 - hold.inletFlowM3PerS.value, 1e-12);
    expect(slip.sensitivities.capacity).toBe(15);
    expectRelative(slip.sensitivities.tacho ?? 0, -2.1e-4, 1e-12);
    expect(slip.sensitivities['hold.1.flow']).toBe(-1);
  });

  it('agrees where the pump slips as predicted, and gives the ratio where it does not', () => {
    const holds = [holdSlipping(1, map, 1), holdSlipping(2, map, 1, 2e5), holdSlipping(3, map, 8)];
    const { holds: found } = accepted(slipAgainstTheory(holds, fitOf, map, slipOil(), stateOf(map, holds)));
    // Fed: once, once and eight times the predicted slip.
    for (const [index, ratio] of [1, 1, 8].entries()) expectRelative(found[index]?.ratio?.value ?? 0, ratio, 1e-6);
    expect(found.map(({ agrees }) => agrees)).toEqual([true, true, false]);
    expect(found.map(({ holdNumber }) => holdNumber)).toEqual([1, 2, 3]);
  });

  it('expects more of a higher pressure in proportion, so that the gauge’s error enters', () => {
    const hold = holdSlipping(1, map, 1);
    const { holds } = accepted(slipAgainstTheory([hold], fitOf, map, slipOil(), stateOf(map, [hold])));
    const line = holds[0]?.expected.budget.find(({ sourceId }) => sourceId === 'gauge');
    // By hand: slip ∝ Δp, 300 Pa of 3 bar is a thousandth. A line below a thousandth of the variance is added to others.
    const share = line?.contribution ?? (holds[0]?.expected.value ?? 0) * 1e-3;
    expectRelative(share, (holds[0]?.expected.value ?? 0) * 1e-3, 1e-6);
  });

  it('says nothing of holds without a pressure rise, and is refused where parts bind', () => {
    const holds = [holdSlipping(1, map, 1, -1e4), holdSlipping(2, map, 1)];
    const found = accepted(slipAgainstTheory(holds, fitOf, map, slipOil(), stateOf(map, holds)));
    expect(found.withoutPressure).toEqual([1]);
    expect(found.holds).toHaveLength(1);
    const reason = { code: 'NEGATIVE_CLEARANCE', quantity: 'gap', value: -1e-6, limit: 0, text: 'invented' } as const;
    const binding = gapMap([], () => no(reason));
    expect(slipAgainstTheory(holds, fitOf, binding, slipOil(), stateOf(map, holds))).toEqual({ ok: false, reason });
  });
});

describe('equivalent clearances', () => {
  /** One gap: slip goes with its cube alone. */
  const oneGap = gapMap(
    [shapeQuantity('gap', 'the gap', { value: 50e-6, standardUncertainty: 2e-6 }, 'normal', true)],
    (read) => ({
      ok: true,
      value: [
        {
          place: 'over the tips',
          label: 'invented',
          conductanceM3: 100 * read('gap') ** 3,
          dragM3PerRev: 0,
          breadthM: 0.02,
          dragPerBreadthM2PerRev: 0,
        },
      ],
    }),
  );
  const at = slipState();

  it('is the cube root of the slip’s excess where one gap is all', () => {
    const predicted = accepted(predictSlip(oneGap, at)).slipM3PerS.value;
    const slip: Uncertain = { value: 1.331 * predicted, sensitivities: { fit: 1 } };
    const own: Source = { ...GAUGE, id: 'fit', standardUncertainty: 0.03 * 1.331 * predicted };
    const { sources } = accepted(predictSlip(oneGap, at));
    const noOil = sources.map((source) =>
      source.id.startsWith('oil.') ? { ...source, standardUncertainty: 0 } : source,
    );
    const [clearance, ...more] = equivalentClearances(oneGap, slip, at, stateWith(own, ...noOil));
    expect(more).toEqual([]);
    // By hand: h = 50 µm · 1.331^(1/3) = 55 µm; 3 % of slip are 1 % of h, 0.55 µm; against the sheet's 50 ± 2.
    expectRelative(clearance?.weight ?? 0, 3, 2e-3);
    const [against] = clearance?.against ?? [];
    expectRelative(against?.measured.value ?? 0, 55e-6, 1e-6);
    expectRelative(against?.measured.standardUncertainty ?? 0, 0.55e-6, 1e-3);
    expectRelative(against?.difference.standardUncertainty ?? 0, Math.hypot(0.55e-6, 2e-6), 1e-3);
    // 5 µm against 1.96 · 2.07 µm.
    expect(against?.agrees).toBe(false);
  });

  it('gives back the sheet’s own clearances where the pump slips as predicted, heaviest first', () => {
    const map = mapOf(feedSheet());
    const predicted = accepted(predictSlip(map, at));
    const clearances = equivalentClearances(
      map,
      exactly(predicted.slipM3PerS.value),
      at,
      stateWith(...predicted.sources),
    );
    expect(clearances.length).toBeGreaterThan(1);
    const weights = clearances.map(({ weight }) => weight);
    expect(weights).toEqual([...weights].sort((a, b) => b - a));
    for (const { clearanceId, against } of clearances) {
      const sheet = map.quantities.find(({ id }) => id === clearanceId)?.value.value ?? Number.NaN;
      expect(
        against.some(({ measured: { value } }) => Math.abs(value / sheet - 1) < 1e-6),
        clearanceId,
      ).toBe(true);
    }
  });
});
