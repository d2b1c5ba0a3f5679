import { it } from 'vitest';
import { createOil } from '../../../rig/practiceBench/oil.ts';
import { expectWithin } from './expectWithin.ts';

it('gives the viscosities of a VG 46 oil between and beyond its two points', () => {
  // ASTM D341 form with (40 °C, 46.0) and (100 °C, 6.80 mm²/s): 133.838 at 20 °C, 20.6227 at 60 °C, 11.1026 at 80 °C
  // (recomputed independently from the standard's equation).
  const oil = createOil({
    oilLower: { temperatureK: 313.15, kinematicViscosityM2PerS: 46e-6 },
    oilUpper: { temperatureK: 373.15, kinematicViscosityM2PerS: 6.8e-6 },
    densityAt15CKgPerM3: 880,
  });
  for (const [temperatureK, mm2PerS] of [
    [293.15, 133.838],
    [333.15, 20.6227],
    [353.15, 11.1026],
  ] as const) {
    const { dynamicViscosityPaS, densityKgPerM3 } = oil(temperatureK);
    expectWithin(dynamicViscosityPaS / densityKgPerM3, mm2PerS * 1e-6, 1e-5);
  }
});

it('expands as lubricating oils do', () => {
  // API MPMS 11.1, lubricating oils, 880 kg/m³ at 15 °C: 864.224 kg/m³ at 40 °C. The bench has one expansion for all
  // oils: 0.05 % is what that costs.
  const oil = createOil({
    oilLower: { temperatureK: 313.15, kinematicViscosityM2PerS: 46e-6 },
    oilUpper: { temperatureK: 373.15, kinematicViscosityM2PerS: 6.8e-6 },
    densityAt15CKgPerM3: 880,
  });
  expectWithin(oil(313.15).densityKgPerM3, 864.224, 5e-4);
  expectWithin(oil(288.15).densityKgPerM3, 880, 1e-12);
});
