import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { camRingSweptVolume } from '../../../analysis/displacement/balancedVaneRing.ts';
import { sweptVolumeOf } from '../../../analysis/displacement/sweptVolume.ts';
import type { BalancedVaneRingGeometry } from '../../../analysis/records/geometry/balancedVaneRing.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { expectSensitivities, measured, scaledLengths, swept, sweptMm3 } from '../../support/sweptGeometry.ts';
import { VANE_RING } from '../../support/vaneRing.ts';

const THIRTEEN_DEGREES_RAD = (13 * Math.PI) / 180;

function geometry(change: Partial<BalancedVaneRingGeometry> = {}): BalancedVaneRingGeometry {
  return { ...VANE_RING, ...change };
}

describe('the swept volume of a balanced vane ring', () => {
  it('has the textbook values, upright, leaned and without the vanes', () => {
    // Standard hydraulics texts, from memory, recomputed.
    expectRelative(sweptMm3(geometry()), 27899.148, 2e-8);
    expectRelative(sweptMm3(geometry({ vaneLeanRad: THIRTEEN_DEGREES_RAD })), 27793.09, 2e-8);
    expectRelative(sweptMm3(geometry({ underVanesDeliver: true })), 31931.148, 2e-8);
  });

  it('is two turns of the difference of the rings where vanes are thin', () => {
    // By hand: 2 · 24 · π (32² − 28.5²).
    const thin = { majorRadiusM: 0.032, minorRadiusM: 0.0285, ringWidthM: 0.024, vaneCount: 12 };
    const mm3 = 48 * Math.PI * (32 ** 2 - 28.5 ** 2);
    expectRelative(camRingSweptVolume({ ...thin, vaneThicknessM: 0, vaneLeanRad: 0.2 }) * 1e9, mm3, 1e-12);
  });

  it('has no ripple where the under-vane spaces deliver, and none that is known where they do not', () => {
    expect(swept(geometry({ underVanesDeliver: true })).flowRipple).toBe(0);
    expect(swept(geometry()).flowRipple).toBeNull();
  });

  it('grows with the cube of the size (seed 62)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        (scale, lean) => {
          const one = geometry({ vaneLeanRad: lean });
          expectRelative(sweptMm3(scaledLengths(one, scale)), scale ** 3 * sweptMm3(one), 1e-11);
        },
      ),
      { seed: 62, numRuns: 50 },
    );
  });

  it('names its measurements with their sensitivities', () => {
    // Second route: central differences.
    for (const underVanesDeliver of [true, false]) {
      expectSensitivities(geometry({ underVanesDeliver, vaneLeanRad: THIRTEEN_DEGREES_RAD }), {
        'geometry.majorDiameter': 'majorDiameterM',
        'geometry.minorDiameter': 'minorDiameterM',
        'geometry.ringWidth': 'ringWidthM',
        'geometry.vaneThickness': 'vaneThicknessM',
      });
    }
  });

  it('is refused where the vanes would not move, or not find room', () => {
    expect(sweptVolumeOf(geometry({ minorDiameterM: measured(0.064) }))).toMatchObject({
      ok: false,
      reason: { code: 'RING_WITHOUT_LIFT', value: 0.064, limit: 0.064 },
    });
    expect(sweptVolumeOf(geometry({ rotorDiameterM: measured(0.058) }))).toMatchObject({
      ok: false,
      reason: { code: 'ROTOR_OUTSIDE_RING', value: 0.029, limit: 0.0285 },
    });
    expect(sweptVolumeOf(geometry({ vaneThicknessM: measured(0.016) }))).toMatchObject({
      ok: false,
      reason: { code: 'VANES_TOO_THICK' },
    });
  });
});
