import { describe, expect, it } from 'vitest';
import { volumetricEfficiency } from '../../../analysis/delivery/volumetricEfficiency.ts';
import type { ClearanceChange } from '../../../analysis/efficiency/clearanceChange.ts';
import { type EfficiencyMap, efficiencyMap, type MapRequest } from '../../../analysis/efficiency/efficiencyMap.ts';
import { mergeSources } from '../../../analysis/efficiency/mergeSources.ts';
import { type LawEvidence, spokenFlow } from '../../../analysis/efficiency/spokenLaw.ts';
import { spokenOil } from '../../../analysis/efficiency/spokenOil.ts';
import { oilState } from '../../../analysis/oil/oilState.ts';
import { oilSources } from '../../../analysis/oil/oilStateAt.ts';
import { exactly, type Source, sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { INVENTED_VG46 } from '../../support/inventedOil.ts';
import { exactEvidence, INVENTED_LAW, inventedLawRun, measured } from './inventedLawRun.ts';

const UNCHANGED = { factor: exactly(1), inWords: 'as in the run' };

const REQUEST: MapRequest = {
  oilTemperatureK: 318.15,
  speedRevPerS: { from: 6, to: 24, count: 4 },
  differentialPressurePa: { from: 1e5, to: 5e5, count: 5 },
};

/** The oil's sources, known without error. */
const EXACT_OIL = sourceTable(oilSources(INVENTED_VG46).map((source) => ({ ...source, standardUncertainty: 0 })));

const SWEPT = measured('geometry', 14e-6, 0.05e-6);

/** A map without any uncertainty. */
function exactMap(
  evidence: LawEvidence,
  change: Pick<ClearanceChange, 'factor' | 'inWords'> = UNCHANGED,
): EfficiencyMap {
  return efficiencyMap(evidence, exactly(14e-6), change, REQUEST, EXACT_OIL);
}

/** Every cell with its place. */
function cellsOf(map: EfficiencyMap) {
  return map.differentialPressuresPa.flatMap((differentialPressurePa, row) =>
    map.speedsRevPerS.map((speedRevPerS, column) => ({
      at: { speedRevPerS, differentialPressurePa, oilTemperatureK: map.oilTemperatureK },
      index: row * map.speedsRevPerS.length + column,
    })),
  );
}

describe('the efficiency map', () => {
  it('is what the slip leaves of V_i n and of V_g n, cell by cell', () => {
    const map = exactMap(exactEvidence());
    expect(map.speedsRevPerS).toEqual([6, 12, 18, 24]);
    expect(map.differentialPressuresPa).toEqual([1e5, 2e5, 3e5, 4e5, 5e5]);
    const { dynamicViscosityPaS, densityKgPerM3 } = oilState(INVENTED_VG46, 318.15);
    for (const { at, index } of cellsOf(map)) {
      // By hand: η_V = 1 − (C_l Δp/µ + C_t √(2Δp/ρ))/(V_i n), and V_i/V_g = 13.9/14 of it against geometry.
      const slip =
        (INVENTED_LAW.laminarSlipM3 * at.differentialPressurePa) / dynamicViscosityPaS +
        INVENTED_LAW.orificeSlipM2 * Math.sqrt((2 * at.differentialPressurePa) / densityKgPerM3);
      const byHand = 1 - slip / (13.9e-6 * at.speedRevPerS);
      expectRelative(map.derivedEfficiency.values[index] ?? 0, byHand, 1e-12);
      expectRelative(map.geometricEfficiency.values[index] ?? 0, (byHand * 13.9) / 14, 1e-12);
      expect(map.derivedEfficiency.expandedUncertainties[index]).toBe(0);
    }
  });

  it('has in every cell the band that propagation gives for that point alone', () => {
    const { evidence, sources } = inventedLawRun(51);
    const growth = measured('growth', 1.1, 0.02);
    const drain = measured('drain', 1e-13, 2e-14);
    const stiffness = measured('bulk', 1.5e9, 2e8);
    const outlet = { drain: { drainCoefficientM3: drain.value }, bulkModulusPa: stiffness.value };
    const other = spokenOil({ ...INVENTED_VG46, name: 'the machine’s (invented)' }, INVENTED_VG46);
    const asked: LawEvidence = { ...evidence, outlet, oil: other };
    const added: readonly Source[] = [growth, drain, stiffness, SWEPT].map(({ source }) => source);
    const table = mergeSources(Object.values(sources), other.sources, added);
    const change = { factor: growth.value, inWords: '' };
    const map = efficiencyMap(asked, SWEPT.value, change, { ...REQUEST, oilTemperatureK: 333.15 }, table);
    for (const { at, index } of cellsOf(map)) {
      const flow = spokenFlow(asked, at, growth.value);
      const speed = exactly(at.speedRevPerS);
      const capacity = evidence.law.uncertain.derivedCapacityM3PerRev;
      const derived = stateUncertainty(volumetricEfficiency(flow, capacity, speed), table);
      const geometric = stateUncertainty(volumetricEfficiency(flow, SWEPT.value, speed), table);
      expectRelative(map.derivedEfficiency.values[index] ?? 0, derived.value, 1e-12);
      expectRelative(map.derivedEfficiency.expandedUncertainties[index] ?? 0, derived.expandedUncertainty, 1e-9);
      expectRelative(map.geometricEfficiency.expandedUncertainties[index] ?? 0, geometric.expandedUncertainty, 1e-9);
    }
  });

  it('does not know the gain of the flow meter in η_V, and knows all of it against geometry', () => {
    // The gain g multiplies every flow and so V_i: q/(V_i n) has none of it, q/(V_g n) is wrong by g in full.
    const { evidence, fit } = inventedLawRun(52, 0);
    const own = (fitted: LawEvidence) => {
      const only = Object.fromEntries(
        Object.entries(fit.uncertain).map(([term, { value, sensitivities }]) => [
          term,
          { value, sensitivities: { 'flow.gain': sensitivities['flow.gain'] ?? 0 } },
        ]),
      );
      const { derivedCapacityM3PerRev, laminarSlipM3, orificeSlipM2, speedPressureSlipM3PerPa } = only;
      if (!(derivedCapacityM3PerRev && laminarSlipM3 && orificeSlipM2 && speedPressureSlipM3PerPa))
        throw new Error('terms');
      const uncertain = { derivedCapacityM3PerRev, laminarSlipM3, orificeSlipM2, speedPressureSlipM3PerPa };
      return { ...fitted, law: { ...fitted.law, uncertain } };
    };
    const gain = measured('flow.gain', 0, 0.003).source;
    const map = efficiencyMap(own(evidence), exactly(14e-6), UNCHANGED, REQUEST, { ...EXACT_OIL, 'flow.gain': gain });
    for (const { index } of cellsOf(map)) {
      expect(map.derivedEfficiency.expandedUncertainties[index]).toBeLessThan(1e-9);
      // 1.95996 standard uncertainties are 95 % of a normal error, any table.
      const byHand = 1.959964 * 0.003 * (map.geometricEfficiency.values[index] ?? 0);
      expectRelative(map.geometricEfficiency.expandedUncertainties[index] ?? 0, byHand, 1e-5);
    }
  });

  it('carries the change of the clearances into another temperature, and what it is uncertain by', () => {
    const growth = measured('growth', 1.3, 0.1);
    const request = { ...REQUEST, oilTemperatureK: 343.15 };
    const change = { factor: growth.value, inWords: 'the gaps let 130 % through' };
    const table = { ...EXACT_OIL, growth: growth.source };
    const map = efficiencyMap(exactEvidence(), exactly(14e-6), change, request, table);
    const tight = efficiencyMap(exactEvidence(), exactly(14e-6), UNCHANGED, request, table);
    const { dynamicViscosityPaS } = oilState(INVENTED_VG46, 343.15);
    for (const { at, index } of cellsOf(map)) {
      // By hand: η falls by 0.3 C_l Δp/(µ V n); a tenth of C_l is one standard uncertainty.
      const laminar = (2.2e-12 * at.differentialPressurePa) / (dynamicViscosityPaS * 13.9e-6 * at.speedRevPerS);
      expectRelative(
        (tight.derivedEfficiency.values[index] ?? 0) - (map.derivedEfficiency.values[index] ?? 0),
        0.3 * laminar,
        1e-8,
      );
      expectRelative(map.derivedEfficiency.expandedUncertainties[index] ?? 0, 1.959964 * 0.1 * laminar, 1e-5);
    }
    expect(map.clearances).toBe('the gaps let 130 % through');
  });

  it('marks what lies outside the holds, cell by cell, and what does in all of them', () => {
    const map = exactMap(exactEvidence());
    const marked = cellsOf(map).filter(({ index }) => map.isExtrapolated[index] === true);
    // Holds at 9 to 18.75 rev/s and 0.6 to 3.9 bar: 6 and 24 rev/s lie outside, and so do 4 and 5 bar.
    const inside = cellsOf(map).filter(
      ({ at }) => at.speedRevPerS > 9 && at.speedRevPerS < 18.8 && at.differentialPressurePa < 3.9e5,
    );
    expect(inside).toHaveLength(6);
    expect(marked).toHaveLength(20 - 6);
    expect(inside.every(({ index }) => map.isExtrapolated[index] === false)).toBe(true);
    expect(map.beyondEverywhere).toEqual([]);
    const request = { ...REQUEST, oilTemperatureK: 348.15 };
    const hot = efficiencyMap(exactEvidence(), exactly(14e-6), UNCHANGED, request, EXACT_OIL);
    expect(hot.beyondEverywhere).toEqual(['temperature', 'viscosity']);
    expect(hot.isExtrapolated.every(Boolean)).toBe(true);
  });

  it('is kept as JSON without loss', () => {
    const map = exactMap(exactEvidence());
    expect(JSON.parse(JSON.stringify(map))).toEqual(map);
  });

  it('refuses axes that are none, a pump at rest and a source that is not there', () => {
    const asked = (change: Partial<MapRequest>) => () =>
      efficiencyMap(exactEvidence(), exactly(14e-6), UNCHANGED, { ...REQUEST, ...change }, EXACT_OIL);
    expect(asked({ speedRevPerS: { from: 0, to: 20, count: 3 } })).toThrow(/speedRevPerS.from/);
    expect(asked({ speedRevPerS: { from: 20, to: 10, count: 3 } })).toThrow(/expected rising/);
    expect(asked({ differentialPressurePa: { from: 1e5, to: 2e5, count: 1 } })).toThrow(/count/);
    expect(() => efficiencyMap(exactEvidence(), exactly(0), UNCHANGED, REQUEST, EXACT_OIL)).toThrow(/sweptVolume/);
    const { evidence } = inventedLawRun(53);
    expect(() => efficiencyMap(evidence, exactly(14e-6), UNCHANGED, REQUEST, {})).toThrow(/sources: none is called/);
  });
});
