import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { preferredUnit } from '../../analysis/preferredUnit.ts';
import { parseDifference, parseQuantity, printQuantity } from '../../analysis/quantityText.ts';
import { type Quantity, readingFrom, siFrom, unitOf } from '../../analysis/units.ts';
import { accepted } from '../support/accepted.ts';
import { expectRelative } from '../support/expectRelative.ts';

const BAROMETER_PA = 100_800;

describe('parseQuantity', () => {
  it('reads what a workshop types, in either system', () => {
    // By hand from NIST SP 811: 1 in = 25.4 mm, 1 US gal = 3.785411784 l, 1 psi = 6894.757293 Pa, 212 °F = 373.15 K.
    const typed: readonly (readonly [string, Quantity, number])[] = [
      ['3 in', 'length', 0.0762],
      ['3"', 'length', 0.0762],
      ['3 1/2 in', 'length', 0.0889],
      ['3-1/2 in', 'length', 0.0889],
      ['1/8in', 'length', 0.003175],
      ['2.5mm', 'length', 0.0025],
      ['  .5  mm ', 'length', 0.0005],
      ['25 µm', 'length', 25e-6],
      ['450 r/min', 'speed', 7.5],
      ['450 rpm', 'speed', 7.5],
      ['450 1/min', 'speed', 7.5],
      ['18 L/min', 'flow', 3e-4],
      ['28 US gal/min', 'flow', (28 * 3.785411784e-3) / 60],
      ['1.2 bar(g)', 'pressure', 220_800],
      ['1.2 barg', 'pressure', 220_800],
      ['−0.4 bar(g)', 'pressure', 60_800],
      ['10 psi(a)', 'pressure', 68_947.57293],
      ['1e5 Pa(a)', 'pressure', 1e5],
      ['45 °C', 'temperature', 318.15],
      ['212 F', 'temperature', 373.15],
      ['46 mm²/s', 'kinematicViscosity', 46e-6],
      ['46 cSt', 'kinematicViscosity', 46e-6],
      ['40 mPa·s', 'dynamicViscosity', 0.04],
      ['3.9 in³/rev', 'sweptVolume', 3.9 * 16.387064e-6],
      ['35.5 N·m', 'torque', 35.5],
      ['2 kW', 'power', 2000],
      ['85 %', 'ratio', 0.85],
      ['0.85', 'ratio', 0.85],
    ];
    for (const [text, quantity, si] of typed) {
      const value = accepted(parseQuantity(text, quantity, BAROMETER_PA));
      expect(Math.abs(value / si - 1), text).toBeLessThan(1e-9);
    }
  });

  it('refuses a decimal comma, since 1,250 may be two numbers', () => {
    for (const text of ['2,5 mm', '1,250 mm', '1,250.5 mm']) {
      const refused = parseQuantity(text, 'length', null);
      expect(refused).toMatchObject({ ok: false, reason: { code: 'DECIMAL_COMMA', typed: text } });
      if (!refused.ok) expect(refused.reason.text).toContain('2.5');
    }
  });

  it('asks whether a pressure is gauge or absolute, and for the barometer that a gauge pressure needs', () => {
    const bare = parseQuantity('1.2 bar', 'pressure', BAROMETER_PA);
    expect(bare).toMatchObject({ ok: false, reason: { code: 'GAUGE_OR_ABSOLUTE' } });
    if (!bare.ok) expect(bare.reason.text).toContain('bar(g)');
    expect(parseQuantity('1.2 bar(g)', 'pressure', null)).toMatchObject({ reason: { code: 'BAROMETER_MISSING' } });
    expect(accepted(parseQuantity('1.2 bar(a)', 'pressure', null))).toBe(120_000);
  });

  it('refuses each other fault under a code of its own', () => {
    const faults: readonly (readonly [string, Quantity, string])[] = [
      ['', 'length', 'NOT_A_NUMBER'],
      ['thin', 'length', 'NOT_A_NUMBER'],
      ['NaN mm', 'length', 'NOT_A_NUMBER'],
      ['1/0 in', 'length', 'NOT_A_NUMBER'],
      ['1e400 mm', 'length', 'NOT_A_NUMBER'],
      ['12', 'length', 'UNIT_MISSING'],
      ['3 1/2', 'length', 'UNIT_MISSING'],
      ['12 furlong', 'length', 'UNKNOWN_UNIT'],
      ['12 constructor', 'length', 'UNKNOWN_UNIT'],
      ['1.2.3 mm', 'length', 'UNKNOWN_UNIT'],
      ['1 200 r/min', 'speed', 'UNKNOWN_UNIT'],
      ['12 l/min', 'length', 'OTHER_QUANTITY'],
      ['-300 degC', 'temperature', 'BELOW_ABSOLUTE_ZERO'],
      ['-2 bar(g)', 'pressure', 'BELOW_ABSOLUTE_ZERO'],
    ];
    for (const [text, quantity, code] of faults) {
      expect(parseQuantity(text, quantity, BAROMETER_PA), text).toMatchObject({
        ok: false,
        reason: { code, typed: text },
      });
    }
    expect(parseQuantity('1e308 h', 'time', null)).toMatchObject({ ok: false, reason: { code: 'NOT_A_NUMBER' } });
  });
});

describe('parseDifference', () => {
  it('knows no zero point: 9 °F are 5 K, and a pressure difference needs no barometer', () => {
    // NIST SP 811, B.9: a temperature interval of 1 °F is 5/9 K.
    expectRelative(accepted(parseDifference('9 °F', 'temperature')), 5, 1e-12);
    expectRelative(accepted(parseDifference('0.5 °C', 'temperature')), 0.5, 1e-12);
    expectRelative(accepted(parseDifference('3 bar', 'pressure')), 3e5, 1e-12);
    expectRelative(accepted(parseDifference('-3 bar(g)', 'pressure')), -3e5, 1e-12);
    expectRelative(accepted(parseDifference('0.02 mm', 'length')), 2e-5, 1e-12);
  });

  it('refuses as parseQuantity does', () => {
    expect(parseDifference('0,02 mm', 'length')).toMatchObject({ reason: { code: 'DECIMAL_COMMA' } });
    expect(parseDifference('3', 'pressure')).toMatchObject({ reason: { code: 'UNIT_MISSING' } });
    expect(parseDifference('3 mm', 'pressure')).toMatchObject({ reason: { code: 'OTHER_QUANTITY' } });
    expect(parseDifference('1e308 h', 'time')).toMatchObject({ reason: { code: 'NOT_A_NUMBER' } });
  });
});

describe('printQuantity', () => {
  it('prints in the unit of the system with the digits of the uncertainty', () => {
    // By hand: 42.00 mm ± 0.02 mm; 42/25.4 = 1.65354 in, U = 0.02/25.4 = 0.00079 in, two digits: five decimals.
    const tip = { value: 0.042, expandedUncertainty: 2e-5 };
    expect(printQuantity(tip, 'length', 'metric')).toEqual({
      value: '42.000',
      expandedUncertainty: '0.020',
      unit: 'mm',
    });
    expect(printQuantity(tip, 'length', 'US')).toEqual({
      value: '1.65354',
      expandedUncertainty: '0.00079',
      unit: 'in',
    });
    // By hand: 318.15 K = 45 °C = 113 °F; U 0.5 K = 0.9 °F.
    expect(printQuantity({ value: 318.15, expandedUncertainty: 0.5 }, 'temperature', 'US')).toEqual({
      value: '113.00',
      expandedUncertainty: '0.90',
      unit: '°F',
    });
    // 1 in³ = 16.387064 cm³ (NIST SP 811): 13.8812767 cm³/rev is 0.847087 in³/rev.
    expect(printQuantity({ value: 13.8812767e-6, expandedUncertainty: 0 }, 'sweptVolume', 'US')).toMatchObject({
      value: '0.8471',
      unit: 'in³/rev',
    });
    expect(printQuantity({ value: 864.224, expandedUncertainty: 0 }, 'density', 'US').unit).toBe('lb/ft³');
  });

  it('prints what parseQuantity reads back, in both systems (seed 51)', () => {
    const quantities = ['flow', 'length', 'sweptVolume', 'volume', 'torque', 'density', 'power', 'speed'] as const;
    fc.assert(
      fc.property(
        fc.constantFrom(...quantities),
        fc.constantFrom('metric' as const, 'US' as const),
        fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
        (quantity, system, si) => {
          const printed = printQuantity({ value: si, expandedUncertainty: si * 1e-9 }, quantity, system);
          expectRelative(accepted(parseQuantity(`${printed.value} ${printed.unit}`, quantity, null)), si, 1e-9);
        },
      ),
      { seed: 51, numRuns: 200 },
    );
  });

  it('names a unit of the quantity itself for every quantity and system', () => {
    const si = 1;
    for (const quantity of [
      'pressure',
      'temperature',
      'time',
      'angle',
      'kinematicViscosity',
      'dynamicViscosity',
      'ratio',
    ] as const) {
      for (const system of ['metric', 'US'] as const) {
        const unit = preferredUnit(quantity, system);
        expect(unit.quantity).toBe(quantity);
        expectRelative(siFrom(readingFrom(si, unit, 0), unit, 0), si, 1e-12);
      }
    }
    // Absolute, so that no barometer need be known.
    expect(preferredUnit('pressure', 'US')).toEqual(unitOf('psi(a)'));
  });
});
