import { describe, expect, it } from 'vitest';
import { orificeFlow } from '../../../analysis/hydraulics/orifice.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const ORIFICE = { dischargeCoefficient: 0.62, areaM2: (Math.PI * 0.002 ** 2) / 4 };

describe('orificeFlow', () => {
  it('passes 12.5 l/min through 2 mm at 50 bar', () => {
    // Worked from Q = C_d A √(2Δp/ρ): C_d = 0.62, 2 mm, 50 bar, 870 kg/m³: 12.529484 l/min.
    expectRelative(orificeFlow(ORIFICE, 50e5, 870) * 60e3, 12.529484, 1e-7);
  });

  it('follows the square root of the pressure and turns round with it', () => {
    // By the law: four times the pressure, twice the flow.
    expectRelative(orificeFlow(ORIFICE, 200e5, 870), 2 * orificeFlow(ORIFICE, 50e5, 870), 1e-12);
    expect(orificeFlow(ORIFICE, -50e5, 870)).toBe(-orificeFlow(ORIFICE, 50e5, 870));
    expect(orificeFlow(ORIFICE, 0, 870)).toBe(0);
  });

  it('refuses what is no orifice, no pressure and no oil', () => {
    expect(() => orificeFlow({ ...ORIFICE, dischargeCoefficient: 1.1 }, 1e5, 870)).toThrow(/dischargeCoefficient/);
    expect(() => orificeFlow({ ...ORIFICE, areaM2: 0 }, 1e5, 870)).toThrow(/areaM2/);
    expect(() => orificeFlow(ORIFICE, Number.NaN, 870)).toThrow(/differentialPressurePa/);
    expect(() => orificeFlow(ORIFICE, 1e5, -1)).toThrow(/densityKgPerM3/);
  });
});
