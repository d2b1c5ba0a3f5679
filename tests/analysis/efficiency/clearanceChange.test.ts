import { describe, expect, it } from 'vitest';
import {
  type ClearanceBasis,
  clearanceChange,
  runTemperatureOf,
} from '../../../analysis/efficiency/clearanceChange.ts';
import { mergeSources } from '../../../analysis/efficiency/mergeSources.ts';
import { no, yes } from '../../../analysis/outcome.ts';
import { forwardSlip } from '../../../analysis/slip/forwardSlip.ts';
import { type Gap, type GapMap, gapMap, shapeQuantity } from '../../../analysis/slip/gapMap.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { feedSheet, MATERIALS, mapOf, slipState } from '../../support/gapSheets.ts';

const RUN_K = 318.15;

const basisOf = (map: GapMap | null): ClearanceBasis => ({ map, materials: MATERIALS, runTemperatureK: RUN_K });

const gap = (conductanceM3: number): Gap => ({
  place: 'over the tips',
  label: 'invented',
  conductanceM3,
  dragM3PerRev: 0,
  breadthM: 0.02,
  dragPerBreadthM2PerRev: 0,
});

/** One gap of 50 µm that opens by 0.2 µm a kelvin; what it lets through goes with its cube. */
const ONE_GAP = gapMap(
  [shapeQuantity('gap', 'the gap', { value: 50e-6, standardUncertainty: 1e-6 })],
  (read, temperatureK) => yes([gap((read('gap') + 0.2e-6 * (temperatureK - RUN_K)) ** 3)]),
);

describe('how clearances change with temperature, by a strip sheet', () => {
  it('is the cube of one gap’s growth, and knows the gap’s own error only by what it does to the ratio', () => {
    const { factor, sources, basis } = accepted(clearanceChange(basisOf(ONE_GAP), RUN_K + 30));
    expect(basis).toBe('strip sheet');
    // By hand: (56/50)³; ∂ ln/∂h = 3 (1/56 − 1/50) per µm, of which one is the standard uncertainty.
    expectRelative(factor.value, 1.12 ** 3, 1e-12);
    const { standardUncertainty } = stateUncertainty(factor, mergeSources(sources));
    expectRelative(standardUncertainty, 1.12 ** 3 * 3 * (1 / 50 - 1 / 56), 2e-3);
  });

  it('is the ratio of what the feed pump’s sheet lets slip at one viscosity', () => {
    const map = mapOf(feedSheet());
    const { factor } = accepted(clearanceChange(basisOf(map), 348.15));
    const letThrough = (temperatureK: number): number => {
      const state = slipState({ temperatureK });
      const { slipM3PerS, gaps } = accepted(forwardSlip(map, state));
      const [first] = gaps;
      // Slip over slip of the same oil at the same pressure: divided by Δp/µ, which is slip over conductance of any gap.
      const conductance = accepted(map.gapsAt(temperatureK, {}))[0]?.conductanceM3 ?? Number.NaN;
      return (slipM3PerS * conductance) / (first?.slipM3PerS ?? Number.NaN);
    };
    expectRelative(factor.value, letThrough(348.15) / letThrough(RUN_K), 1e-9);
  });

  it('is nothing at the temperature of the run, without any uncertainty', () => {
    const { factor, sources } = accepted(clearanceChange(basisOf(mapOf(feedSheet())), RUN_K));
    expect(factor.value).toBe(1);
    expect(stateUncertainty(factor, mergeSources(sources)).standardUncertainty).toBe(0);
  });

  it('is refused where parts bind at either temperature, and where nothing leaks', () => {
    const reason = { code: 'NEGATIVE_CLEARANCE', quantity: 'gap', value: -1e-6, limit: 0, text: 'invented' } as const;
    const binding = gapMap([], (_, temperatureK) => (temperatureK > 340 ? no(reason) : yes([gap(1e-13)])));
    expect(clearanceChange(basisOf(binding), 350)).toEqual({ ok: false, reason });
    expect(clearanceChange({ ...basisOf(binding), runTemperatureK: 345 }, 330)).toEqual({ ok: false, reason });
    const shut = gapMap([], () => yes([gap(0)]));
    expect(clearanceChange(basisOf(shut), 350)).toMatchObject({ ok: false, reason: { code: 'NOTHING_LEAKS' } });
  });
});

describe('how clearances change with temperature, without a strip sheet', () => {
  it('is taken for none, give or take what the materials may do over a gap 400 times as long as high', () => {
    const { factor, sources, basis, inWords } = accepted(clearanceChange(basisOf(null), RUN_K + 30));
    expect(basis).toBe('assumed');
    expect(factor.value).toBe(1);
    // By hand, cast iron 11.0 ± 0.5 and steel 11.8 ± 0.6 in 1e-6/K: 3 · 400 · (0.8 + 1.1)e-6 = 2.28e-3 a kelvin, rectangular.
    const stated = stateUncertainty(factor, mergeSources(sources));
    expectRelative(stated.standardUncertainty, (30 * 2.28e-3) / Math.sqrt(3), 1e-9);
    expect(inWords).toMatch(/give or take 7 %/);
  });

  it('is one source for all temperatures, so that two that are hotter err together', () => {
    const [warm, hot] = [
      accepted(clearanceChange(basisOf(null), RUN_K + 10)),
      accepted(clearanceChange(basisOf(null), RUN_K + 20)),
    ];
    expect(warm.sources).toEqual(hot.sources);
    const [byWarm, byHot] = [warm, hot].map(({ factor }) => factor.sensitivities['clearance.growth'] ?? 0);
    expectRelative(byHot ?? 0, 2 * (byWarm ?? 0), 1e-12);
  });

  it('knows less of materials that nobody named', () => {
    const materials = { body: null, gears: null, bushes: null };
    const { sources } = accepted(clearanceChange({ map: null, materials, runTemperatureK: RUN_K }, RUN_K + 1));
    // Each anything from 10.5 to 23.6e-6: half-widths of 6.55e-6 twice.
    expectRelative(sources[0]?.standardUncertainty ?? 0, (1200 * 13.1e-6) / Math.sqrt(3), 1e-9);
  });
});

describe('runTemperatureOf', () => {
  it('is the middle of the holds', () => {
    const range = { speedRevPerS: [9, 18], differentialPressurePa: [0, 4e5], oilTemperatureK: [317, 320] } as const;
    expect(runTemperatureOf(range)).toBe(318.5);
  });
});
