import { describe, expect, it } from 'vitest';
import { externalGearSweptVolume } from '../../../analysis/displacement/externalGear.ts';
import type { ExternalGearGeometry } from '../../../analysis/records/geometry/externalGear.ts';
import { sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const TWENTY_DEGREES_RAD = Math.PI / 9;

function geometry(change: Partial<ExternalGearGeometry> = {}): ExternalGearGeometry {
  return {
    kind: 'externalGear',
    toothCount: { driver: 12, driven: 12 },
    moduleM: 0.003,
    pressureAngleRad: TWENTY_DEGREES_RAD,
    tipDiameterM: { value: 0.042, standardUncertainty: 10e-6 },
    runningCentreDistanceM: { value: 0.036, standardUncertainty: 15e-6 },
    faceWidthM: { value: 0.02, standardUncertainty: 8e-6 },
    hasReliefGrooves: true,
    backlashM: { value: 120e-6, standardUncertainty: 20e-6 },
    tipClearanceM: { value: 40e-6, standardUncertainty: 10e-6 },
    endFloatM: { value: 50e-6, standardUncertainty: 10e-6 },
    ...change,
  };
}

function length(mm: number) {
  return { value: mm / 1000, standardUncertainty: 10e-6 };
}

const unequal = geometry({
  toothCount: { driver: 10, driven: 14 },
  tipDiameterM: length(36),
  drivenTipDiameterM: length(48),
});

function sweptVolume(of: ExternalGearGeometry) {
  return accepted(externalGearSweptVolume(of));
}

/** Central differences of the volume by one length. */
function slope(of: ExternalGearGeometry, change: (by: number) => Partial<ExternalGearGeometry>): number {
  const step = 1e-6;
  const value = (by: number): number => sweptVolume({ ...of, ...change(by) }).sweptVolume.value;
  return (value(step) - value(-step)) / (2 * step);
}

function longer({ value, standardUncertainty }: { value: number; standardUncertainty: number }, by: number) {
  return { value: value + by, standardUncertainty };
}

describe('externalGearSweptVolume', () => {
  it('names every measurement it rests on, with its sensitivity', () => {
    // Second route: central differences of the closed formula.
    const of = geometry();
    const { sweptVolume: swept, sources } = sweptVolume(of);
    expect(sources.map(({ id }) => id)).toEqual([
      'geometry.tipDiameter',
      'geometry.centreDistance',
      'geometry.faceWidth',
      'geometry.model',
    ]);
    const slopes = {
      'geometry.tipDiameter': slope(of, (by) => ({ tipDiameterM: longer(of.tipDiameterM, by) })),
      'geometry.centreDistance': slope(of, (by) => ({
        runningCentreDistanceM: longer(of.runningCentreDistanceM, by),
      })),
      'geometry.faceWidth': slope(of, (by) => ({ faceWidthM: longer(of.faceWidthM, by) })),
    };
    for (const [id, expected] of Object.entries(slopes)) {
      expectRelative(swept.sensitivities[id] ?? Number.NaN, expected, 1e-6);
    }
    expect(swept.sensitivities['geometry.model']).toBe(swept.value);
  });

  it('keeps the tips of unequal gears apart, each with its own sensitivity', () => {
    const { sweptVolume: swept, sources, basis } = sweptVolume(unequal);
    // Derived by the control volume of Manring and Kasaragadda (2003), no outside source: 11 575.10191 mm³.
    expectRelative(swept.value, 11575.10191e-9, 1e-8);
    expect(sources.map(({ id }) => id)).toContain('geometry.drivenTipDiameter');
    expect(basis).toContain('10 (driver) and 14');
    const driven = length(48);
    const slopes = {
      'geometry.tipDiameter': slope(unequal, (by) => ({ tipDiameterM: longer(unequal.tipDiameterM, by) })),
      'geometry.drivenTipDiameter': slope(unequal, (by) => ({ drivenTipDiameterM: longer(driven, by) })),
      'geometry.centreDistance': slope(unequal, (by) => ({
        runningCentreDistanceM: longer(unequal.runningCentreDistanceM, by),
      })),
    };
    for (const [id, expected] of Object.entries(slopes)) {
      expectRelative(swept.sensitivities[id] ?? Number.NaN, expected, 1e-6);
    }
  });

  it('knows that two tips measured apart err apart, and one measurement for both errs twice', () => {
    // By hand: ∂V/∂d_a = π b d_a for both at once, half of it for each; apart u falls by √2.
    const shared = sweptVolume(geometry()).sweptVolume.sensitivities['geometry.tipDiameter'] ?? Number.NaN;
    const apart = sweptVolume(geometry({ drivenTipDiameterM: length(42) })).sweptVolume.sensitivities;
    expectRelative(shared, Math.PI * 0.02 * 0.042, 1e-12);
    expectRelative(apart['geometry.tipDiameter'] ?? Number.NaN, shared / 2, 1e-12);
    expectRelative(apart['geometry.drivenTipDiameter'] ?? Number.NaN, shared / 2, 1e-12);
  });

  it('states the volume with the uncertainty of its measurements', () => {
    // By hand, V = 13.8812767 cm³: ∂V/∂d_a = π b d_a = 2.638938e-3 m², times 10 µm: 0.0263894 cm³; ∂V/∂a = −π b a
    // = −2.261947e-3 m², times 15 µm: 0.0339292; V/b · 8 µm: 0.0055525; model 0.5 %/√3 of V: 0.0400718.
    // Root sum of squares: 0.0590268 cm³.
    const { sweptVolume: swept, sources } = sweptVolume(geometry());
    const stated = stateUncertainty(swept, sourceTable(sources));
    expectRelative(stated.value, 13.8812767e-6, 1e-8);
    expectRelative(stated.standardUncertainty, 0.0590268e-6, 1e-5);
    expect(stated.budget[0]?.label).toBe('relief grooves and backlash: spread of the formula');
  });

  it('trusts the formula less where grooves or backlash are missing', () => {
    const model = (change: Partial<ExternalGearGeometry>): number =>
      sweptVolume(geometry(change)).sources.find(({ id }) => id === 'geometry.model')?.standardUncertainty ??
      Number.NaN;
    const relieved = model({});
    // By hand: p_b²/16 over the mean bracket, 4.902/110.4637 = 4.4379 % (ripple 0.177515 over 4), by √3.
    expectRelative(model({ hasReliefGrooves: false }), 0.177515 / 4 / Math.sqrt(3), 1e-5);
    expect(model({ backlashM: { value: 0, standardUncertainty: 0 } })).toBe(model({ hasReliefGrooves: false }));
    expect(relieved).toBeLessThan(model({ hasReliefGrooves: false }));
  });

  it('refuses gears that do not reach each other, or lose each other between two teeth', () => {
    const apart = externalGearSweptVolume(geometry({ runningCentreDistanceM: length(42.1) }));
    expect(apart).toMatchObject({ ok: false, reason: { code: 'TIP_BELOW_PITCH' } });
    const short = externalGearSweptVolume(geometry({ tipDiameterM: length(38) }));
    expect(short).toMatchObject({ ok: false, reason: { code: 'CONTACT_RATIO_BELOW_ONE' } });
  });

  it('refuses teeth that come to a point, and tips that cut into the flank that has to seal', () => {
    // By hand, z = 12, m = 3 mm: ψ_b = π/24 + inv 20° = 0.145804; at 22.5 mm arccos(16.914467/22.5) = 0.720109 with
    // inv 0.157127: the flanks have crossed.
    const pointed = externalGearSweptVolume(geometry({ tipDiameterM: length(45) }));
    expect(pointed).toMatchObject({ ok: false, reason: { code: 'POINTED_TOOTH', limit: 0 } });
    // By hand, 8 against 40 teeth with tips of 65 mm radius: they reach √(65² − 56.381557²) = 32.344 mm along the line
    // of action, 7.72 mm past the point a sin α = 24.625 mm where it touches the driver's base circle.
    const long = externalGearSweptVolume(
      geometry({
        toothCount: { driver: 8, driven: 40 },
        tipDiameterM: length(30),
        drivenTipDiameterM: length(130),
        runningCentreDistanceM: length(72),
      }),
    );
    expect(long).toMatchObject({ ok: false, reason: { code: 'TIP_INTERFERENCE', limit: -0.02 * 0.003 } });
  });
});
