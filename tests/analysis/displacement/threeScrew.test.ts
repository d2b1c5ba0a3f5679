import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sweptVolumeOf } from '../../../analysis/displacement/sweptVolume.ts';
import { handbookThreeScrewVolume, sharpEdgedOpenArea } from '../../../analysis/displacement/threeScrew.ts';
import type { ThreeScrewGeometry } from '../../../analysis/records/geometry/threeScrew.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { expectSensitivities, measured, scaledLengths, swept, sweptMm3 } from '../../support/sweptGeometry.ts';

/** d = 30 mm at the nominal proportions. */
function geometry(change: Partial<ThreeScrewGeometry> = {}): ThreeScrewGeometry {
  return {
    kind: 'threeScrew',
    powerDiameterM: measured(0.05),
    idlerDiameterM: measured(0.03),
    leadM: measured(0.1),
    ...change,
  };
}

describe('the swept volume of a three-screw pump', () => {
  it('has the area of the sharp-edged profile', () => {
    // Derived here; recomputed independently by polygons without overlap: A = 1.25187266 d², V = 4.17290887 d³ at 10/3 d.
    expectRelative(sharpEdgedOpenArea(), 1.25187266, 1e-8);
    expectRelative(sweptMm3(geometry()), 4.17290887 * 30 ** 3, 1e-8);
  });

  it('lies within a per cent of the handbooks, and says both', () => {
    // Handbooks on three-screw pumps, from memory: A = 1.2433 d², V = 4.14 d³, 111.78 cm³ for d = 30 mm; with sharp
    // edges 112.669 cm³, 0.69 % more by the area.
    expectRelative(1.2433, sharpEdgedOpenArea(), 0.008);
    expectRelative(sharpEdgedOpenArea() / 1.2433 - 1, 0.0069, 0.01);
    expectRelative(handbookThreeScrewVolume(0.03, 0.1), 111.78e-6, 1e-4);
    expectRelative(handbookThreeScrewVolume(0.03, 0.1), (1.2433 * 0.03 ** 3 * 10) / 3, 0.002);
    expectRelative(sweptMm3(geometry()), 112669, 1e-5);
    const { basis, sources, flowRipple } = swept(geometry());
    expect(basis).toContain('112.67');
    expect(basis).toContain('111.78');
    expectRelative(sources.at(-1)?.standardUncertainty ?? Number.NaN, 0.01 / Math.sqrt(3), 1e-12);
    expect(flowRipple).toBe(0);
  });

  it('grows with the cube of the size (seed 64)', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 20, noNaN: true }), (scale) => {
        expectRelative(sweptMm3(scaledLengths(geometry(), scale)), scale ** 3 * sweptMm3(geometry()), 1e-12);
      }),
      { seed: 64, numRuns: 50 },
    );
  });

  it('names its measurements with their sensitivities', () => {
    // Second route: central differences.
    expectSensitivities(geometry(), { 'geometry.idlerDiameter': 'idlerDiameterM', 'geometry.lead': 'leadM' });
  });

  it('is refused for another profile', () => {
    // By hand: 1.72 is 3.2 % over 5/3, the limit 1 %.
    const refused = sweptVolumeOf(geometry({ powerDiameterM: measured(0.0516) }));
    expect(refused).toMatchObject({ ok: false, reason: { code: 'PROFILE_NOT_NOMINAL', value: 1.72 } });
    expectRelative(refused.ok ? Number.NaN : refused.reason.limit, (5 / 3) * 1.01, 1e-9);
    const thin = sweptVolumeOf(geometry({ powerDiameterM: measured(0.045) }));
    expectRelative(thin.ok ? Number.NaN : thin.reason.limit, (5 / 3) * 0.99, 1e-9);
  });
});
