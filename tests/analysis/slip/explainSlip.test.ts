import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clearanceExplainingShortfall, clearanceExplainingSlip } from '../../../analysis/slip/explainSlip.ts';
import { forwardSlip } from '../../../analysis/slip/forwardSlip.ts';
import { type GapMap, withChange } from '../../../analysis/slip/gapMap.ts';
import { possibleRange, valleyZeros } from '../../../analysis/slip/valleyZeros.ts';
import { exactly } from '../../../analysis/uncertainty/source.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { feedSheet, mapOf, slipState } from '../../support/gapSheets.ts';

const feed = mapOf(feedSheet());

function slipOf(map: GapMap, state = slipState()): number {
  const slip = forwardSlip(map, state);
  if (!slip.ok) throw new Error(slip.reason.text);
  return slip.value.slipM3PerS;
}

function shortfallOf(map: GapMap, state = slipState()): number {
  const slip = forwardSlip(map, state);
  if (!slip.ok) throw new Error(slip.reason.text);
  return slip.value.slipM3PerS - slip.value.dragM3PerRev * state.speedRevPerS;
}

function coldValue(map: GapMap, id: string): number {
  return map.quantities.find((quantity) => quantity.id === id)?.value.value ?? Number.NaN;
}

describe('slip from clearances, backwards', () => {
  it('finds the clearance that a slip was made with (seed 49)', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('endFloat', 'tip.driver', 'tip.driven'),
        fc.double({ min: 0, max: 3e-4, noNaN: true }),
        (id, wear) => {
          const worn = withChange(feed, id, wear);
          const found = clearanceExplainingSlip(feed, id, exactly(slipOf(worn)), slipState());
          expect(found.clearancesM).toHaveLength(1);
          expectRelative(found.clearancesM[0]?.value ?? Number.NaN, coldValue(worn, id), 1e-6);
        },
      ),
      { seed: 49, numRuns: 40 },
    );
  });

  it('says the clearance in words', () => {
    const found = clearanceExplainingSlip(
      feed,
      'endFloat',
      exactly(slipOf(withChange(feed, 'endFloat', 70e-6))),
      slipState(),
    );
    expect(found.inWords).toBe('end float: 0.120 mm would explain it');
  });

  it('says that none fits: too little for the other gaps, or too much for any', () => {
    const little = clearanceExplainingSlip(feed, 'endFloat', exactly(1e-12), slipState());
    expect(little.clearancesM).toEqual([]);
    expect(little.inWords).toContain('the other gaps alone');
    const much = clearanceExplainingSlip(feed, 'endFloat', exactly(1), slipState());
    expect(much.clearancesM).toEqual([]);
    expect(much.inWords).toContain('look for another way of the oil');
  });

  it('finds two tip clearances for one shortfall, where drag carries forward what pressure takes back', () => {
    // Derived here: net slip k h³ Δp/µ − D n h has one valley; both sides of it are tried forwards.
    const state = slipState({ differentialPressurePa: 1e5 });
    const narrow = withChange(feed, 'tip.driver', 20e-6);
    const shortfall = shortfallOf(narrow, state);
    const found = clearanceExplainingShortfall(feed, 'tip.driver', exactly(shortfall), state);
    expect(found.clearancesM).toHaveLength(2);
    expect(found.inWords).toContain('two would explain it');
    for (const { value } of found.clearancesM) {
      const again = withChange(feed, 'tip.driver', value - coldValue(feed, 'tip.driver'));
      expectRelative(shortfallOf(again, state), shortfall, 1e-6);
    }
    expectRelative(found.clearancesM[0]?.value ?? Number.NaN, 60e-6, 1e-6);
    const none = clearanceExplainingShortfall(feed, 'tip.driver', exactly(-1e-4), state);
    expect(none.clearancesM).toEqual([]);
  });

  it('looks at a bush only as far as the gear clears the casing', () => {
    // A bush of 0.5 mm would let the gear lean 0.06 mm and more into a clearance of 0.04 mm.
    const found = clearanceExplainingSlip(
      feed,
      'bush.0',
      exactly(slipOf(withChange(feed, 'bush.0', 10e-6))),
      slipState(),
    );
    const fits = found.clearancesM.map(({ value }) => value);
    expect(fits.some((value) => Math.abs(value / 42e-6 - 1) < 1e-5)).toBe(true);
    expect(Math.max(...fits)).toBeLessThan(3e-4);
  });

  it('carries the doubt of the measured slip and of the other gaps, not that of the clearance itself', () => {
    // Second route: the slope at the end float found, by central differences of the forward slip.
    const measured = { value: slipOf(feed), sensitivities: { meter: 1 } };
    const [fit] = clearanceExplainingSlip(feed, 'endFloat', measured, slipState()).clearancesM;
    const step = 1e-9;
    const slope =
      (slipOf(withChange(feed, 'endFloat', step)) - slipOf(withChange(feed, 'endFloat', -step))) / (2 * step);
    expectRelative(fit?.sensitivities.meter ?? Number.NaN, 1 / slope, 1e-5);
    expectRelative(fit?.sensitivities['oil.viscosity'] ?? Number.NaN, measured.value / slope, 1e-5);
    expect(fit?.sensitivities).not.toHaveProperty('strip.endFloat.recessDepth');
    expect(fit?.sensitivities).toHaveProperty('slip.faceOffset');
  });

  it('refuses to look for what is no clearance of this pump', () => {
    expect(() => clearanceExplainingSlip(feed, 'lean', exactly(1e-6), slipState())).toThrow(RangeError);
    expect(() => clearanceExplainingShortfall(feed, 'rootClearance', exactly(1e-6), slipState())).toThrow(RangeError);
  });
});

describe('valleyZeros', () => {
  it('finds both sides of a valley, one side, or neither', () => {
    // By hand: (x − 0.2)(x − 0.7) has both; x³ − 0.008 has 0.2; x² + 1 has none; x − 5 has none up to 1.
    const [low, high] = valleyZeros((x) => (x - 0.2) * (x - 0.7), 0, 1);
    expectRelative(low ?? Number.NaN, 0.2, 1e-12);
    expectRelative(high ?? Number.NaN, 0.7, 1e-12);
    expectRelative(valleyZeros((x) => x ** 3 - 0.008, 0, 1)[0] ?? Number.NaN, 0.2, 1e-12);
    expect(valleyZeros((x) => x * x + 1, 0, 1)).toEqual([]);
    expect(valleyZeros((x) => x - 5, 0, 1)).toEqual([]);
  });

  it('keeps to the stretch that is possible', () => {
    const range = possibleRange((x) => (x < 0.1 || x > 0.6 ? null : x), 1);
    expectRelative(range?.fromM ?? Number.NaN, 0.1, 1e-12);
    expectRelative(range?.toM ?? Number.NaN, 0.6, 1e-12);
    expect(possibleRange(() => null, 1)).toBeNull();
  });
});
