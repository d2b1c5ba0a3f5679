import { describe, expect, it } from 'vitest';
import { formatStated, printedUnit } from '../../analysis/formatStated.ts';
import { unitOf } from '../../analysis/units.ts';

const plain = (value: number, expandedUncertainty: number) => formatStated({ value, expandedUncertainty }, unitOf('1'));

describe('a stated value is printed with the digits its uncertainty carries', () => {
  it('rounds as the guide does', () => {
    // JCGM 100:2008, 7.2.6: y = 10.057 62 ohm with u = 27 mohm is to be given as 10.058 ohm.
    expect(plain(10.05762, 0.027)).toEqual({ value: '10.058', expandedUncertainty: '0.027', unit: '' });
  });

  it('keeps two digits of an uncertainty that rounds up to the next ten', () => {
    // By hand: 0.0996 to two digits is 0.10, so two decimals; 1.2345 to two decimals is 1.23.
    expect(plain(1.2345, 0.0996)).toEqual({ value: '1.23', expandedUncertainty: '0.10', unit: '' });
  });

  it('rounds to hundreds where the uncertainty asks for it', () => {
    // By hand: 1234 to two digits is 1200; 56 789 to hundreds is 56 800.
    expect(plain(56789, 1234)).toEqual({ value: '56800', expandedUncertainty: '1200', unit: '' });
  });

  it('prints a value without uncertainty with four significant digits', () => {
    // By hand: 2.345 67 to four digits is 2.346; 123 456 to four digits.
    expect(plain(2.34567, 0).value).toBe('2.346');
    expect(plain(123456, 0).value).toBe('123500');
    expect(plain(0, 0)).toEqual({ value: '0', expandedUncertainty: '0', unit: '' });
  });

  it('prints a true minus sign, and none before zero', () => {
    // By hand: −2.347 to two decimals.
    expect(plain(-2.347, 0.12).value).toBe('−2.35');
    // By hand: −0.004 to two decimals is zero.
    expect(plain(-0.004, 0.12).value).toBe('0.00');
  });

  it('converts on the way out: a flow, a temperature, a gauge pressure', () => {
    // By hand: 1.9e-4 m³/s × 60 000 = 11.4 l/min; U 2.0e-6 × 60 000 = 0.12.
    expect(formatStated({ value: 1.9e-4, expandedUncertainty: 2e-6 }, unitOf('l/min'))).toEqual({
      value: '11.40',
      expandedUncertainty: '0.12',
      unit: 'l/min',
    });
    // By hand: 319.25 K − 273.15 = 46.10 °C; an uncertainty has no zero point.
    expect(formatStated({ value: 319.25, expandedUncertainty: 0.5 }, unitOf('degC'))).toEqual({
      value: '46.10',
      expandedUncertainty: '0.50',
      unit: '°C',
    });
    // By hand: (401 325 − 101 325) / 1e5 = 3.00 bar.
    expect(formatStated({ value: 401325, expandedUncertainty: 2000 }, unitOf('bar(g)'), 101325).value).toBe('3.000');
  });

  it('refuses a gauge unit without a barometer, and numbers that are none', () => {
    expect(() => formatStated({ value: 1e5, expandedUncertainty: 1 }, unitOf('bar(g)'))).toThrow(RangeError);
    expect(() => plain(Number.NaN, 1)).toThrow(RangeError);
    expect(() => plain(1, -1)).toThrow(RangeError);
    expect(() => plain(1, Number.POSITIVE_INFINITY)).toThrow(RangeError);
  });

  it('raises the exponents of units', () => {
    expect(printedUnit('cm3/rev')).toBe('cm³/rev');
    expect(printedUnit('mm2/s')).toBe('mm²/s');
    expect(printedUnit('min')).toBe('min');
  });
});
