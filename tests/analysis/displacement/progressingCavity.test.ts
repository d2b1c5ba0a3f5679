import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sweptVolumeOf } from '../../../analysis/displacement/sweptVolume.ts';
import type { ProgressingCavityGeometry } from '../../../analysis/records/geometry/progressingCavity.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { expectSensitivities, measured, scaledLengths, swept, sweptMm3 } from '../../support/sweptGeometry.ts';

function geometry(change: Partial<ProgressingCavityGeometry> = {}): ProgressingCavityGeometry {
  return {
    kind: 'progressingCavity',
    eccentricityM: measured(0.004),
    rotorDiameterM: measured(0.04),
    statorPitchM: measured(0.12),
    ...change,
  };
}

describe('the swept volume of a progressing cavity pump', () => {
  it('is 4 e D P_s, with the pitch of the stator', () => {
    // Moineau's geometry, from memory of standard texts: e = 4, D = 40, P_s = 120 mm give 76.8 cm³.
    expectRelative(sweptMm3(geometry()), 76800, 1e-12);
    expect(swept(geometry()).flowRipple).toBe(0);
  });

  it('grows with the cube of the size (seed 65)', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 20, noNaN: true }), (scale) => {
        expectRelative(sweptMm3(scaledLengths(geometry(), scale)), scale ** 3 * 76800, 1e-12);
      }),
      { seed: 65, numRuns: 50 },
    );
  });

  it('names its measurements with their sensitivities', () => {
    // Second route: central differences.
    expectSensitivities(geometry(), {
      'geometry.eccentricity': 'eccentricityM',
      'geometry.rotorDiameter': 'rotorDiameterM',
      'geometry.statorPitch': 'statorPitchM',
    });
  });

  it('is refused for a rotor without a core', () => {
    expect(sweptVolumeOf(geometry({ eccentricityM: measured(0.02) }))).toMatchObject({
      ok: false,
      reason: { code: 'CAVITY_WITHOUT_CORE', value: 0.02, limit: 0.02 },
    });
  });
});
