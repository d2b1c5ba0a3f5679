import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lawRegressors } from '../../../analysis/delivery/slipLaw.ts';
import {
  annularGapConductance,
  discGapConductance,
  dragFlow,
  gapReynolds,
  planeGapConductance,
  pressureFlow,
  rollGapConductance,
} from '../../../analysis/slip/gapLaws.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const ML_PER_MIN = 1e-6 / 60;
const L_PER_MIN = 1e-3 / 60;

describe('gap laws', () => {
  it('has the pressure flow of a plane gap', () => {
    // Plane Poiseuille flow, any text of fluid mechanics, from memory, recomputed: b 20 mm, h 30 µm, L 5 mm, 10 MPa, 40 mPa s.
    const conductance = planeGapConductance(0.02, 30e-6, 0.005);
    const flow = pressureFlow(conductance, { dynamicViscosityPaS: 0.04, differentialPressurePa: 10e6 });
    expectRelative(flow, 2.25e-6, 1e-9);
    expectRelative(flow, 135 * ML_PER_MIN, 1e-9);
  });

  it('has the drag flow of a plane gap, and its sum with the pressure flow both ways', () => {
    // Plane Couette flow, from memory, recomputed: the same gap, wall at 3 m/s: 54.0, net 81.0 and 189.0 ml/min.
    const pressure = pressureFlow(planeGapConductance(0.02, 30e-6, 0.005), {
      dynamicViscosityPaS: 0.04,
      differentialPressurePa: 10e6,
    });
    const drag = dragFlow(0.02, 30e-6, 3);
    expectRelative(drag, 54 * ML_PER_MIN, 1e-9);
    expectRelative(pressure - drag, 81 * ML_PER_MIN, 1e-9);
    expectRelative(pressure + drag, 189 * ML_PER_MIN, 1e-9);
  });

  it('has the annular gap, concentric, half off centre and touching', () => {
    // Fluid power texts, from memory; the integral of local h³ checked numerically: d 20 mm, c 15 µm, L 30 mm, 20 MPa, 30 mPa s.
    const flow = (eccentricity: number): number =>
      pressureFlow(annularGapConductance(0.02, 15e-6, 0.03, eccentricity), {
        dynamicViscosityPaS: 0.03,
        differentialPressurePa: 20e6,
      });
    expectRelative(flow(0), 23.561945 * ML_PER_MIN, 1e-7);
    expectRelative(flow(0.5), 32.397674 * ML_PER_MIN, 1e-7);
    expectRelative(flow(1), 58.904862 * ML_PER_MIN, 1e-7);
    expectRelative(flow(1) / flow(0), 2.5, 1e-12);
  });

  it('has the radial flow between discs', () => {
    // Hydrostatic bearing texts, from memory, recomputed: h 20 µm, 12 and 25 mm, 10 MPa, 30 mPa s.
    const flow = pressureFlow(discGapConductance(20e-6, 0.012, 0.025), {
      dynamicViscosityPaS: 0.03,
      differentialPressurePa: 10e6,
    });
    expectRelative(flow, 114.140766 * ML_PER_MIN, 1e-8);
  });

  it('has the roll gap that plane gaps in series make', () => {
    // Derived here, no outside source; second route: resistances 12 dx/(b h³) of h + x²/(2R), added up by Simpson's rule.
    const [b, h, radius] = [0.02, 40e-6, 0.009];
    const reach = 60 * Math.sqrt(2 * radius * h);
    const strips = 40_000;
    let sum = 0;
    for (let index = 0; index <= strips; index += 1) {
      const x = reach * ((2 * index) / strips - 1);
      const weight = index === 0 || index === strips ? 1 : index % 2 === 1 ? 4 : 2;
      sum += weight * (h + (x * x) / (2 * radius)) ** -3;
    }
    const resistance = (12 / b) * sum * ((2 * reach) / strips / 3);
    expectRelative(rollGapConductance(b, h, radius), 1 / resistance, 1e-6);
  });

  it('carries the slip of Wilson’s model', () => {
    // Wilson (1946), Trans. ASME 68, from memory, recomputed: Q_s = C_s V/(2π) Δp/µ; V 20 cm³, 10 MPa, 30 mPa s,
    // C_s 0.48e-7: 3.055775 l/min (coefficient of the order quoted for gear pumps, not verified; the arithmetic counts).
    // With C_s 8e-9 at 1500 r/min: η_v = 0.983023473.
    const drive = { dynamicViscosityPaS: 0.03, differentialPressurePa: 10e6 };
    const conductance = (coefficient: number): number => (coefficient * 20e-6) / (2 * Math.PI);
    expectRelative(pressureFlow(conductance(0.48e-7), drive), 3.055775 * L_PER_MIN, 1e-6);
    expectRelative(1 - pressureFlow(conductance(8e-9), drive) / (20e-6 * 25), 0.983023473, 1e-9);
  });

  it('carries the laminar part of Schlösser’s model, beside the orifice part of the fitted law', () => {
    // Schlösser (1961), as given in loss-model surveys, model from memory, recomputed: V 20 cm³, 10 MPa, 30 mPa s,
    // 870 kg/m³, C_l 1e-8, C_t 3e-5: 0.636619772 + 0.201085709 = 0.837705482 l/min.
    const [volume, drive] = [20e-6, { dynamicViscosityPaS: 0.03, differentialPressurePa: 10e6 }];
    const laminar = pressureFlow((1e-8 * volume) / (2 * Math.PI), drive);
    const jet = lawRegressors({ ...drive, speedRevPerS: 25, densityKgPerM3: 870 }).orificeSlipM2;
    const orifice = -jet * 3e-5 * volume ** (2 / 3);
    expectRelative(laminar, 0.636619772 * L_PER_MIN, 1e-8);
    expectRelative(orifice, 0.201085709 * L_PER_MIN, 1e-8);
    expectRelative(laminar + orifice, 0.837705482 * L_PER_MIN, 1e-8);
  });

  it('goes with the pressure and against the viscosity (seed 46)', () => {
    // Wilson (1946): Q_s = k Δp/µ; doubling µ halves the slip.
    const some = fc.double({ min: 1e-3, max: 10, noNaN: true });
    fc.assert(
      fc.property(some, some, some, (viscosity, pressure, factor) => {
        const flow = (dynamicViscosityPaS: number, differentialPressurePa: number): number =>
          pressureFlow(1e-12, { dynamicViscosityPaS, differentialPressurePa });
        expectRelative(flow(2 * viscosity, pressure), flow(viscosity, pressure) / 2, 1e-12);
        expectRelative(flow(viscosity, factor * pressure), factor * flow(viscosity, pressure), 1e-12);
      }),
      { seed: 46, numRuns: 50 },
    );
  });

  it('has the Reynolds number on height and mean speed', () => {
    // By hand: 1 m/s through 100 µm: q/b = 1e-4 m²/s; 870 · 1e-4/0.03 = 2.9; with a wall at 2 m/s another 1e-4.
    const oil = { densityKgPerM3: 870, dynamicViscosityPaS: 0.03 };
    expectRelative(gapReynolds(oil, 1e-4, 0), 2.9, 1e-12);
    expectRelative(gapReynolds(oil, -1e-4, (2 * 100e-6) / 2), 5.8, 1e-12);
  });

  it('refuses a viscosity that is none and a gap that is no number', () => {
    expect(() => pressureFlow(1e-12, { dynamicViscosityPaS: 0, differentialPressurePa: 1 })).toThrow(RangeError);
    expect(() => pressureFlow(Number.NaN, { dynamicViscosityPaS: 1, differentialPressurePa: 1 })).toThrow(RangeError);
  });
});
