import { describe, expect, it } from 'vitest';
import { geopotentialAltitude, standardAtmosphere } from '../../analysis/atmosphere.ts';
import { accepted } from '../support/accepted.ts';
import { expectRelative } from '../support/expectRelative.ts';

describe('standardAtmosphere', () => {
  it('has the pressures of the standard against geopotential altitude', () => {
    // ISO 2533 / ICAO: p = 101 325 (1 − 0.0065 H/288.15)^5.2558798 (constants from memory, recomputed).
    const published: readonly (readonly [number, number])[] = [
      [0, 101_325],
      [500, 95_460.835],
      [1000, 89_874.563],
      [2000, 79_495.202],
    ];
    for (const [altitudeM, pressurePa] of published) {
      expectRelative(accepted(standardAtmosphere(altitudeM)).pressurePa, pressurePa, 1e-7);
    }
  });

  it('has the pressures of the standard against geometric altitude', () => {
    // The same with H = 6 356 766 z/(6 356 766 + z): 89 876.278 Pa at 1000 m, 79 501.411 at 2000 m; a public test suite
    // (CalebBell/fluids) prints 79 501 Pa at 2 km.
    expectRelative(accepted(standardAtmosphere(geopotentialAltitude(1000))).pressurePa, 89_876.278, 1e-7);
    expectRelative(accepted(standardAtmosphere(geopotentialAltitude(2000))).pressurePa, 79_501.411, 1e-7);
  });

  it('has 1.225 kg/m³ and 15 °C at the sea', () => {
    // ISO 2533: sea-level density and temperature.
    const sea = accepted(standardAtmosphere(0));
    expectRelative(sea.densityKgPerM3, 1.225, 1e-6);
    expect(sea.temperatureK).toBe(288.15);
  });

  it('weighs what lies above: dp/dH = −ρ g₀', () => {
    // Independent route: hydrostatics, by central differences over 2 m.
    for (const altitudeM of [-1500, 0, 1400, 8000, 10_900]) {
      const [below, here, above] = [-1, 0, 1].map((step) => accepted(standardAtmosphere(altitudeM + step)));
      if (below === undefined || here === undefined || above === undefined) throw new Error('three layers');
      expectRelative((above.pressurePa - below.pressurePa) / 2, -here.densityKgPerM3 * 9.80665, 1e-7);
    }
  });

  it('refuses altitudes outside its layer, and what is none', () => {
    // ISO 2533: the layer of 6.5 K/km ends at 11 km; the tables begin at −2 km.
    expect(standardAtmosphere(11_001)).toMatchObject({
      ok: false,
      reason: { code: 'ALTITUDE_OUT_OF_RANGE', value: 11_001, limit: 11_000 },
    });
    expect(standardAtmosphere(-2001)).toMatchObject({ ok: false, reason: { limit: -2000 } });
    expect(standardAtmosphere(11_000)).toMatchObject({ ok: true });
    expect(() => standardAtmosphere(Number.NaN)).toThrow(RangeError);
    expect(() => geopotentialAltitude(Number.NaN)).toThrow(RangeError);
    expect(() => geopotentialAltitude(-7e6)).toThrow(RangeError);
  });
});
