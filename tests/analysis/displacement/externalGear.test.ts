import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type EqualGears,
  equalGearContactRatio,
  equalGearFlowRipple,
  equalGearSweptVolume,
  externalGearSweptVolume,
  unrelievedSpread,
} from '../../../analysis/displacement/externalGear.ts';
import type { ExternalGearGeometry } from '../../../analysis/records/geometry/externalGear.ts';
import { sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const TWENTY_DEGREES_RAD = Math.PI / 9;

/** Gears in millimetres. */
function gearsMm(moduleMm: number, tipRadiusMm: number, pitchRadiusMm: number, faceWidthMm: number): EqualGears {
  return {
    moduleM: moduleMm / 1000,
    pressureAngleRad: TWENTY_DEGREES_RAD,
    tipRadiusM: tipRadiusMm / 1000,
    pitchRadiusM: pitchRadiusMm / 1000,
    faceWidthM: faceWidthMm / 1000,
  };
}

/** m = 3 mm, 12 + 12 teeth, standard addendum, 20 mm wide. */
const twelveTeeth = gearsMm(3, 21, 18, 20);

const CUBIC_MM = 1e-9;

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

function sweptVolume(of: ExternalGearGeometry) {
  const swept = externalGearSweptVolume(of);
  if (!swept.ok) throw new Error(swept.reason.code);
  return swept.value;
}

/** Simpson's rule with a thousand strips. */
function integral(f: (x: number) => number, from: number, to: number): number {
  const strips = 1000;
  const step = (to - from) / strips;
  let sum = f(from) + f(to);
  for (let index = 1; index < strips; index += 1) sum += (index % 2 === 1 ? 4 : 2) * f(from + index * step);
  return (sum * step) / 3;
}

describe('the swept volume of equal external gears', () => {
  it('has the published values', () => {
    // Manring and Kasaragadda (2003), J. Dyn. Syst. Meas. Control 125, 396-404, and Ivantysyn and Ivantysynova (2001),
    // gear pumps; formula from memory of those works, recomputed (areas of the real involute outlines agree to 4e-9).
    expectRelative(equalGearSweptVolume(twelveTeeth), 13881.2767 * CUBIC_MM, 1e-8);
    // m = 2.5 mm, 14 + 14 teeth, 16 mm wide.
    expectRelative(equalGearSweptVolume(gearsMm(2.5, 20, 17.5, 16)), 8968.45744 * CUBIC_MM, 1e-8);
  });

  it('goes by the measured tip and the running centre distance of shifted gears', () => {
    // As above: m = 3.5 mm, 12 + 12 teeth, tip radius 25 mm, centre distance 42 mm, 20 mm wide.
    const shifted = gearsMm(3.5, 25, 21, 20);
    expectRelative(equalGearSweptVolume(shifted), 22004.13665 * CUBIC_MM, 1e-8);
    expectRelative(equalGearFlowRipple(shifted), 0.152423878, 1e-8);
  });

  it('lies just above the handbook short form', () => {
    // Handbooks: V ≈ 2π b m² (z + 0.27) for 20°, from memory, recomputed: 13 877.0431 mm³, 0.0305 % below the exact value.
    const shortForm = 2 * Math.PI * 20 * 9 * (12 + 0.27) * CUBIC_MM;
    expectRelative(shortForm, 13877.0431 * CUBIC_MM, 1e-8);
    expectRelative(1 - shortForm / equalGearSweptVolume(twelveTeeth), 0.000305, 2e-3);
  });

  it('lies 4 to 7 % below the calliper formula of the workshop', () => {
    // "Formula to calculate gear pump displacement" (paperzz.com/doc/7823320): (π/2) b (d_a² − a²), which leaves out
    // p_b²/12 and is always high.
    for (const gears of [twelveTeeth, gearsMm(2.5, 20, 17.5, 16), gearsMm(3.5, 25, 21, 20)]) {
      const calliper = (Math.PI / 2) * gears.faceWidthM * ((2 * gears.tipRadiusM) ** 2 - (2 * gears.pitchRadiusM) ** 2);
      const excess = calliper / equalGearSweptVolume(gears) - 1;
      expect(excess).toBeGreaterThan(0.04);
      expect(excess).toBeLessThan(0.07);
    }
  });

  it('is the flow of the moving contact point, followed through one mesh', () => {
    // Second route: the contact stands on the line of action at s from the pitch point; each gear displaces
    // b ω (r_a² − R²)/2 with R its distance from that gear's centre. Averaged over a base pitch of the path.
    const { tipRadiusM, pitchRadiusM, faceWidthM, moduleM, pressureAngleRad } = twelveTeeth;
    const basePitchM = Math.PI * moduleM * Math.cos(pressureAngleRad);
    const volumePerRadM3 = (s: number): number => {
      const [along, across] = [s * Math.sin(pressureAngleRad), s * Math.cos(pressureAngleRad)];
      const toDriver = Math.hypot(pitchRadiusM + along, across);
      const toDriven = Math.hypot(pitchRadiusM - along, across);
      return (faceWidthM * (2 * tipRadiusM ** 2 - toDriver ** 2 - toDriven ** 2)) / 2;
    };
    const mean = integral(volumePerRadM3, -basePitchM / 2, basePitchM / 2) / basePitchM;
    expectRelative(2 * Math.PI * mean, equalGearSweptVolume(twelveTeeth), 1e-12);
  });

  it('is what the tooth spaces carry less what the mesh traps and takes back', () => {
    // Third route, by areas of the involute outlines [mm]: V = z b (2 A_space − A_trapped), dedendum 1.25 m, radial
    // flanks inside the base circle, no backlash. Derived here; an independent polygon calculation gave
    // A_space = 34.34817 and A_trapped = 10.85769 mm².
    const [z, tip, pitch, root, width] = [12, 21, 18, 14.25, 20];
    const base = pitch * Math.cos(TWENTY_DEGREES_RAD);
    const involute = (angle: number): number => Math.tan(angle) - angle;
    const halfTooth = (r: number): number =>
      Math.PI / (2 * z) + involute(TWENTY_DEGREES_RAD) - (r > base ? involute(Math.acos(base / r)) : 0);
    const gap = (r: number): number => ((2 * Math.PI) / z - 2 * halfTooth(r)) * r;
    const space = integral(gap, root, base) + integral(gap, base, tip);
    expect(Math.abs(space - 34.34817)).toBeLessThan(2e-4);

    // Between two contacts half a base pitch before and behind the pitch point: the quadrilateral of contacts and
    // centres, less a pitch of each gear, corrected along the flank (½ ∫ r² d inv α = r_b² tan³α/6).
    const halfPitch = (Math.PI * 3 * Math.cos(TWENTY_DEGREES_RAD)) / 2;
    const onFlank = (s: number): number => (base ** 2 / 6) * (Math.tan(TWENTY_DEGREES_RAD) + s / base) ** 3;
    const gearSector = (Math.PI * tip ** 2) / z - space - (onFlank(halfPitch) - onFlank(-halfPitch));
    const trapped = 2 * pitch * halfPitch * Math.cos(TWENTY_DEGREES_RAD) - 2 * gearSector;
    expect(Math.abs(trapped - 10.85769)).toBeLessThan(2e-4);
    expectRelative(equalGearSweptVolume(twelveTeeth), z * width * (2 * space - trapped) * CUBIC_MM, 1e-6);
  });

  it('grows with the cube of the size (seed 45)', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 20, noNaN: true }), (scale) => {
        const scaled = gearsMm(3 * scale, 21 * scale, 18 * scale, 20 * scale);
        expectRelative(equalGearSweptVolume(scaled), scale ** 3 * equalGearSweptVolume(twelveTeeth), 1e-12);
        expectRelative(equalGearFlowRipple(scaled), equalGearFlowRipple(twelveTeeth), 1e-11);
        expectRelative(equalGearContactRatio(scaled, 12), equalGearContactRatio(twelveTeeth, 12), 1e-11);
      }),
      { seed: 45, numRuns: 50 },
    );
  });
});

describe('ripple and contact ratio of equal external gears', () => {
  it('has the published ripple', () => {
    // Manring and Kasaragadda (2003), from memory, recomputed: δ = 0.177515; at 1500 r/min q_max 22.05398043,
    // q_min 18.35778420, q_mean 20.82191502 l/min.
    expect(Math.abs(equalGearFlowRipple(twelveTeeth) - 0.177515)).toBeLessThan(1e-6);
    expectRelative(equalGearFlowRipple(twelveTeeth), (22.05398043 - 18.3577842) / 20.82191502, 1e-7);
  });

  it('has the contact ratio of the involute', () => {
    // By hand, m = 3 mm, z = 12, [mm]: r_b = 16.914467, √(21² − r_b²) = 12.446, √(18² − r_b²) = 6.156363,
    // p_b = 8.856394; ε = 2 (12.445950 − 6.156363)/8.856394 = 1.42035.
    expectRelative(equalGearContactRatio(twelveTeeth, 12), 1.42035, 1e-5);
  });

  it('cannot be had inside the base circle', () => {
    expect(equalGearContactRatio(gearsMm(3, 21, 16, 20), 12)).toBeNaN();
  });
});

describe('unrelievedSpread', () => {
  it('covers a mesh that seals at its newest contact, and one that seals on both flanks', () => {
    // Second route, by integration [mm]: mean of r_a² − r_w² − s² over the contacts that seal.
    for (const [gears, teeth] of [
      [twelveTeeth, 12],
      [gearsMm(3.5, 25, 21, 20), 12],
    ] as const) {
      const ratio = equalGearContactRatio(gears, teeth);
      const pitchM = Math.PI * gears.moduleM * Math.cos(gears.pressureAngleRad);
      const flow = (s: number): number => gears.tipRadiusM ** 2 - gears.pitchRadiusM ** 2 - s * s;
      const mean = (from: number, to: number): number => integral(flow, from, to) / (to - from);
      const relieved = mean(-pitchM / 2, pitchM / 2);
      const pathStart = (-ratio * pitchM) / 2;
      const newestContact = 1 - mean(pathStart, pathStart + pitchM) / relieved;
      const bothFlanks = mean(-pitchM / 4, pitchM / 4) / relieved - 1;
      expectRelative(unrelievedSpread(gears, ratio), Math.max(newestContact, bothFlanks), 1e-10);
    }
  });
});

describe('externalGearSweptVolume', () => {
  it('names every measurement it rests on, with its sensitivity', () => {
    // Second route: central differences of the closed formula.
    const { sweptVolume: swept, sources } = sweptVolume(geometry());
    expect(sources.map(({ id }) => id)).toEqual([
      'geometry.tipDiameter',
      'geometry.centreDistance',
      'geometry.faceWidth',
      'geometry.model',
    ]);
    const step = 1e-6;
    for (const [id, key] of [
      ['geometry.tipDiameter', 'tipDiameterM'],
      ['geometry.centreDistance', 'runningCentreDistanceM'],
      ['geometry.faceWidth', 'faceWidthM'],
    ] as const) {
      const shifted = (by: number): number =>
        sweptVolume(geometry({ [key]: { value: geometry()[key].value + by, standardUncertainty: 0 } })).sweptVolume
          .value;
      expectRelative(swept.sensitivities[id] ?? Number.NaN, (shifted(step) - shifted(-step)) / (2 * step), 1e-6);
    }
    expect(swept.sensitivities['geometry.model']).toBe(swept.value);
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

  it('refuses gears that do not reach each other', () => {
    const refused = externalGearSweptVolume(
      geometry({ runningCentreDistanceM: { value: 0.0421, standardUncertainty: 0 } }),
    );
    expect(refused).toMatchObject({ ok: false, reason: { code: 'TIP_BELOW_PITCH' } });
    expect(refused.ok ? '' : refused.reason.text).toContain('42.10 mm');
  });

  it('refuses gears that lose each other between two teeth', () => {
    // By hand [mm]: tip radius 19 against pitch radius 18: 2 (8.656 − 6.156)/8.856 = 0.564.
    const short = externalGearSweptVolume(geometry({ tipDiameterM: { value: 0.038, standardUncertainty: 0 } }));
    expect(short).toMatchObject({ ok: false, reason: { code: 'CONTACT_RATIO_BELOW_ONE' } });
    expect(short.ok ? '' : short.reason.text).toContain('0.56');
    const inside = externalGearSweptVolume(
      geometry({ runningCentreDistanceM: { value: 0.033, standardUncertainty: 0 } }),
    );
    expect(inside).toMatchObject({ ok: false, reason: { code: 'CONTACT_RATIO_BELOW_ONE' } });
    expect(inside.ok ? '' : inside.reason.text).toContain('base circles');
  });
});
