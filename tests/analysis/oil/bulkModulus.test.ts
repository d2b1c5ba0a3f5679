import { describe, expect, it } from 'vitest';
import { effectiveBulkModulus } from '../../../analysis/oil/bulkModulus.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const OIL = { liquidBulkModulusPa: 1.6e9, freeAirFraction: 0.01, polytropicExponent: 1 };

/** Volume of the mixture at a pressure, 1 at one standard atmosphere: for the independent route below. */
function mixtureVolume({ liquidBulkModulusPa, freeAirFraction, polytropicExponent }: typeof OIL, pressurePa: number) {
  return (
    freeAirFraction * (101_325 / pressurePa) ** (1 / polytropicExponent) +
    (1 - freeAirFraction) * (1 - (pressurePa - 101_325) / liquidBulkModulusPa)
  );
}

describe('effectiveBulkModulus', () => {
  it('falls to a hundredth with one per cent of air at atmospheric pressure, and recovers with pressure', () => {
    // Derived, no outside source: K = 1.6 GPa, 1 % of free air at 101 325 Pa; MPa at 1.01325, 5, 10, 50, 100 bar absolute.
    const pressuresBar = [1.01325, 5, 10, 50, 100];
    const isothermalMPa = [10.0694, 212.293, 606.8978, 1497.348, 1564.6429];
    const adiabaticMPa = [14.0621, 191.4419, 493.0225, 1396.9811, 1524.4889];
    pressuresBar.forEach((bar, index) => {
      expectRelative(effectiveBulkModulus(OIL, bar * 1e5), (isothermalMPa[index] ?? Number.NaN) * 1e6, 4e-6);
      const fast = { ...OIL, polytropicExponent: 1.4 };
      expectRelative(effectiveBulkModulus(fast, bar * 1e5), (adiabaticMPa[index] ?? Number.NaN) * 1e6, 4e-6);
    });
  });

  it('is the slope of the mixture volume against pressure', () => {
    // Independent route: −V Δp/ΔV by central differences of the volume itself.
    for (const polytropicExponent of [1, 1.2, 1.4]) {
      for (const pressurePa of [4e4, 101_325, 3e5, 2e6, 2e7]) {
        const oil = { ...OIL, polytropicExponent };
        const step = pressurePa * 1e-4;
        const fall = mixtureVolume(oil, pressurePa - step) - mixtureVolume(oil, pressurePa + step);
        expectRelative(effectiveBulkModulus(oil, pressurePa), (mixtureVolume(oil, pressurePa) * 2 * step) / fall, 1e-6);
      }
    }
  });

  it('is that of the oil alone where there is no air', () => {
    // By definition.
    expectRelative(effectiveBulkModulus({ ...OIL, freeAirFraction: 0 }, 101_325), 1.6e9, 1e-12);
  });

  it('refuses what is no oil, no air and no pressure', () => {
    expect(() => effectiveBulkModulus({ ...OIL, liquidBulkModulusPa: 0 }, 1e5)).toThrow(/liquidBulkModulusPa/);
    expect(() => effectiveBulkModulus({ ...OIL, freeAirFraction: 1 }, 1e5)).toThrow(/freeAirFraction/);
    expect(() => effectiveBulkModulus({ ...OIL, polytropicExponent: 1.7 }, 1e5)).toThrow(/polytropicExponent/);
    for (const bad of [0, -1, 2e9, Number.NaN]) expect(() => effectiveBulkModulus(OIL, bad)).toThrow(/pressurePa/);
  });
});
