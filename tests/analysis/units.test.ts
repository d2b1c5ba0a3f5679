import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  differenceFrom,
  findUnit,
  ICE_POINT_K,
  type Quantity,
  readingFrom,
  STANDARD_GRAVITY_M_PER_S2,
  siDifferenceFrom,
  siFrom,
  unitOf,
  unitSymbols,
} from '../../analysis/units.ts';
import { expectRelative } from '../support/expectRelative.ts';

const BAROMETER_PA = 100_800;

const QUANTITIES: readonly Quantity[] = [
  'pressure',
  'flow',
  'speed',
  'temperature',
  'time',
  'length',
  'torque',
  'sweptVolume',
  'volume',
  'angle',
  'kinematicViscosity',
  'dynamicViscosity',
  'density',
  'power',
  'ratio',
];

function inSi(reading: number, symbol: string): number {
  return siFrom(reading, unitOf(symbol), BAROMETER_PA);
}

describe('units', () => {
  it('have the conventional factors', () => {
    // NIST SP 811 (2008), appendix B: 1 US gal = 3.785411784 l, 1 in³ = 16.387064 ml, 1 psi = 6894.757293 Pa,
    // 1 lbf·in = 0.112984829 N·m, g₀ = 9.80665 m/s²; 1 bar = 14.503774 psi.
    expectRelative(inSi(1, 'US gal/min') * 60, 3.785411784e-3, 1e-12);
    expectRelative(inSi(1, 'in3/rev'), 16.387064e-6, 1e-12);
    expectRelative(inSi(1, 'psi(a)'), 6894.757293, 1e-9);
    expectRelative(inSi(1, 'in lbf'), 0.112984829, 1e-8);
    expectRelative(readingFrom(1e5, unitOf('psi(a)'), BAROMETER_PA), 14.503774, 1e-7);
    // 1 hp = 550 ft·lbf/s = 745.699872 W, 1 mmHg (conventional) = 133.322387 Pa, 1 inHg = 25.4 mmHg = 3386.38864 Pa,
    // 1 ft·lbf = 1.355817948 J, 1 lb/ft³ = 16.01846337 kg/m³, 1 ft = 0.3048 m.
    expectRelative(inSi(1, 'hp'), 745.699872, 1e-9);
    expectRelative(inSi(1, 'mmHg(a)'), 133.322387, 5e-9);
    expectRelative(inSi(1, 'inHg(a)'), 3386.38864, 5e-9);
    expectRelative(inSi(1, 'ft lbf'), 1.355817948, 1e-9);
    expectRelative(inSi(1, 'lb/ft3'), 16.01846337, 1e-9);
    expectRelative(inSi(1, 'ft'), 0.3048, 1e-12);
    expectRelative(inSi(1, 'in3'), 16.387064e-6, 1e-12);
    expectRelative(inSi(1, 'US gal'), 3.785411784e-3, 1e-12);
    expect(STANDARD_GRAVITY_M_PER_S2).toBe(9.80665);
    expect(ICE_POINT_K).toBe(273.15);
  });

  it('convert the readings of a workshop', () => {
    // By hand: 60 l/min = 1 l/s; 1500 r/min = 25 rev/s; 36 m³/h = 0.01 m³/s; 46 mm²/s; 180° = π.
    expectRelative(inSi(60, 'l/min'), 1e-3, 1e-12);
    expectRelative(inSi(3600, 'l/h'), 1e-3, 1e-12);
    expectRelative(inSi(36, 'm3/h'), 0.01, 1e-12);
    expectRelative(inSi(1500, 'r/min'), 25, 1e-12);
    expectRelative(inSi(20, 'cm3/rev'), 20e-6, 1e-12);
    expectRelative(inSi(46, 'mm2/s'), 46e-6, 1e-12);
    expectRelative(inSi(40.02, 'mPa s'), 0.04002, 1e-12);
    expectRelative(inSi(180, 'deg'), Math.PI, 1e-12);
    expectRelative(inSi(25, 'um'), 25e-6, 1e-12);
    expectRelative(inSi(2, 'h'), 7200, 1e-12);
    expectRelative(inSi(93.5, '%'), 0.935, 1e-12);
  });

  it('turns degrees into kelvins with their zero points', () => {
    // NIST SP 811 (2008), B.9: T/K = t/°C + 273.15 = (t/°F + 459.67)/1.8; 212 °F and 100 °C are 373.15 K, −40 is −40.
    expectRelative(inSi(100, 'degC'), 373.15, 1e-14);
    expectRelative(inSi(212, 'degF'), 373.15, 1e-14);
    expectRelative(inSi(-40, 'degF'), inSi(-40, 'degC'), 1e-14);
    expectRelative(siDifferenceFrom(9, unitOf('degF')), 5, 1e-14);
    expectRelative(differenceFrom(5, unitOf('degF')), 9, 1e-14);
    expect(siDifferenceFrom(0.5, unitOf('degC'))).toBe(0.5);
  });

  it('adds the barometer to gauge pressures and to nothing else', () => {
    // By hand: 3 bar(g) over 100 800 Pa is 400 800 Pa; −0.4 bar(g) is 60 800 Pa; an uncertainty knows no barometer.
    expectRelative(inSi(3, 'bar(g)'), 400_800, 1e-12);
    expectRelative(inSi(-0.4, 'bar(g)'), 60_800, 1e-12);
    expectRelative(inSi(3, 'bar(a)'), 300_000, 1e-12);
    expectRelative(siDifferenceFrom(0.01, unitOf('bar(g)')), 1000, 1e-12);
    for (const quantity of QUANTITIES) {
      for (const symbol of unitSymbols(quantity)) {
        expect(unitOf(symbol).isGauge, symbol).toBe(symbol.endsWith('(g)'));
      }
    }
  });

  it('come back to the reading they started from, all of them (seed 46)', () => {
    const symbols = QUANTITIES.flatMap((quantity) => unitSymbols(quantity));
    fc.assert(
      fc.property(fc.constantFrom(...symbols), fc.double({ min: 1, max: 1e4, noNaN: true }), (symbol, reading) => {
        const unit = unitOf(symbol);
        const back = readingFrom(siFrom(reading, unit, BAROMETER_PA), unit, BAROMETER_PA);
        // A gauge pressure of 1 Pa stands on 1e5 Pa of barometer: ten digits are left.
        expectRelative(back, reading, 1e-10);
      }),
      { seed: 46, numRuns: 300 },
    );
  });

  it('pass a missing reading on as missing', () => {
    expect(inSi(Number.NaN, 'bar(g)')).toBeNaN();
  });

  it('refuse a symbol that is none, and one of another quantity, by name', () => {
    expect(findUnit('bar', 'pressure')).toMatchObject({ ok: false, reason: { code: 'UNKNOWN_UNIT', symbol: 'bar' } });
    expect(findUnit('l/min', 'pressure')).toEqual({
      ok: false,
      reason: { code: 'OTHER_QUANTITY', symbol: 'l/min', is: 'flow', expected: 'pressure' },
    });
    const unknown = findUnit('furlong', 'length');
    expect(unknown).toMatchObject({ ok: false, reason: { known: ['m', 'mm', 'um', 'in', 'ft'] } });
    expect(() => unitOf('constructor')).toThrow(/constructor/);
    expect(findUnit('r/min', 'speed')).toMatchObject({ ok: true, value: { symbol: 'r/min' } });
  });
});
