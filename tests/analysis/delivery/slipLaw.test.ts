import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flowAtUncertainPoint, type LawPoint } from '../../../analysis/delivery/slipLaw.ts';
import { exactly } from '../../../analysis/uncertainty/source.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const CAPACITY_M3_PER_REV = 20e-6;
const POINT: LawPoint = {
  speedRevPerS: 25,
  differentialPressurePa: 10e6,
  dynamicViscosityPaS: 0.03,
  densityKgPerM3: 870,
};

/** Theoretical flow minus the flow of the law. */
function slip(laminarSlipM3: number, orificeSlipM2: number, point: LawPoint): number {
  const coefficients = {
    derivedCapacityM3PerRev: CAPACITY_M3_PER_REV,
    laminarSlipM3,
    orificeSlipM2,
    speedPressureSlipM3PerPa: 0,
  };
  const at = {
    speedRevPerS: exactly(point.speedRevPerS),
    differentialPressurePa: exactly(point.differentialPressurePa),
    dynamicViscosityPaS: exactly(point.dynamicViscosityPaS),
    densityKgPerM3: exactly(point.densityKgPerM3),
  };
  return CAPACITY_M3_PER_REV * point.speedRevPerS - flowAtUncertainPoint(coefficients, at).value;
}

/** C_l from Wilson's dimensionless C_s: per radian of capacity. */
function wilson(slipCoefficient: number): number {
  return (slipCoefficient * CAPACITY_M3_PER_REV) / (2 * Math.PI);
}

describe('the slip law', () => {
  it("has Wilson's laminar slip", () => {
    // Wilson (1946), model from memory, worked: C_s = 8e-9, 20 cm³, 1500 r/min, 0.030 Pa s, 10 MPa: η_V = 0.983023473.
    const theoreticalM3PerS = CAPACITY_M3_PER_REV * 25;
    expectRelative(1 - slip(wilson(8e-9), 0, POINT) / theoreticalM3PerS, 0.983023473, 1e-8);
    // C_s = 0.48e-7 (of the order quoted for gear pumps; McCloy and Martin, from memory): 3.055775 l/min, η_V = 0.898141.
    expectRelative(slip(wilson(0.48e-7), 0, POINT) * 60e3, 3.055775, 2e-7);
    expectRelative(1 - slip(wilson(0.48e-7), 0, POINT) / theoreticalM3PerS, 0.898141, 1e-6);
  });

  it("has Schlösser's slip through orifices", () => {
    // Schlösser (1961) as given in surveys of loss models, worked: C_l = 1.0e-8, C_t = 3.0e-5, the latter times V^(2/3):
    // 0.636619772 + 0.201085709 l/min.
    const orificeM2 = 3e-5 * CAPACITY_M3_PER_REV ** (2 / 3);
    expectRelative(slip(wilson(1e-8), 0, POINT) * 60e3, 0.636619772, 1e-8);
    expectRelative(slip(0, orificeM2, POINT) * 60e3, 0.201085709, 1e-8);
    expectRelative(slip(wilson(1e-8), orificeM2, POINT) * 60e3, 0.837705482, 1e-8);
  });

  it('slips in proportion to pressure and fluidity, whatever the speed (seed 52)', () => {
    // Wilson (1946): laminar slip = k Δp/µ.
    const factor = fc.double({ min: 0.2, max: 5, noNaN: true });
    fc.assert(
      fc.property(factor, factor, factor, (pressure, viscosity, speed) => {
        const changed = {
          ...POINT,
          speedRevPerS: speed * POINT.speedRevPerS,
          differentialPressurePa: pressure * POINT.differentialPressurePa,
          dynamicViscosityPaS: viscosity * POINT.dynamicViscosityPaS,
        };
        expectRelative(slip(1e-14, 0, changed), ((pressure / viscosity) * 1e-14 * 10e6) / 0.03, 1e-8);
      }),
      { seed: 52, numRuns: 100 },
    );
  });

  it('slips backwards under a negative pressure difference', () => {
    // By the law: the root keeps the sign of the pressure difference.
    const reversed = { ...POINT, differentialPressurePa: -POINT.differentialPressurePa };
    expectRelative(slip(1e-14, 1e-8, reversed), -slip(1e-14, 1e-8, POINT), 1e-12);
    expect(slip(1e-14, 1e-8, { ...POINT, differentialPressurePa: 0 })).toBe(0);
  });
});
