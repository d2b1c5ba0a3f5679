import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pistonFlowRipple } from '../../../analysis/displacement/plunger.ts';
import { sweptVolumeOf } from '../../../analysis/displacement/sweptVolume.ts';
import type { PlungerGeometry } from '../../../analysis/records/geometry/plunger.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { expectSensitivities, measured, scaledLengths, swept, sweptMm3 } from '../../support/sweptGeometry.ts';

const DEGREE_RAD = Math.PI / 180;

function geometry(change: Partial<PlungerGeometry> = {}): PlungerGeometry {
  return {
    kind: 'plunger',
    pistonCount: 9,
    pistonDiameterM: measured(0.02),
    pitchCircleDiameterM: measured(0.07),
    swashAngleRad: measured(18 * DEGREE_RAD),
    ...change,
  };
}

describe('the swept volume of an axial piston pump', () => {
  it('has the textbook value', () => {
    // Standard texts, from memory, recomputed: z = 9, d = 20, D_p = 70 mm, 18°.
    expectRelative(sweptMm3(geometry()), 64308.2158, 1e-9);
  });

  it('gives the flow of the textbook example', () => {
    // Esposito, Fluid Power with Applications, piston pumps, from memory, recomputed: nine pistons of 15 mm on 125 mm at
    // 10°, 1000 r/min: 0.03505449 m³/min; with 94 % of it 0.5491871 l/s (the book has 0.55).
    const m3PerRev = swept(
      geometry({
        pistonDiameterM: measured(0.015),
        pitchCircleDiameterM: measured(0.125),
        swashAngleRad: measured(10 * DEGREE_RAD),
      }),
    ).sweptVolume.value;
    expectRelative(m3PerRev * 1000, 0.03505449, 1e-6);
    expectRelative((0.94 * m3PerRev * 1000 * 1000) / 60, 0.5491871, 1e-6);
  });

  it('grows with the cube of the size (seed 66)', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 20, noNaN: true }), (scale) => {
        expectRelative(sweptMm3(scaledLengths(geometry(), scale)), scale ** 3 * sweptMm3(geometry()), 1e-12);
      }),
      { seed: 66, numRuns: 50 },
    );
  });

  it('names its measurements with their sensitivities', () => {
    // Second route: central differences.
    expectSensitivities(geometry(), {
      'geometry.pistonDiameter': 'pistonDiameterM',
      'geometry.pitchCircle': 'pitchCircleDiameterM',
      'geometry.swashAngle': 'swashAngleRad',
    });
  });

  it('is refused for pistons in each other and a swash plate that none is', () => {
    // By hand: neighbours of nine on 70 mm are 70 sin 20° = 23.94 mm apart.
    const overlapping = sweptVolumeOf(geometry({ pistonDiameterM: measured(0.024) }));
    expect(overlapping).toMatchObject({ ok: false, reason: { code: 'PISTONS_OVERLAP', value: 0.024 } });
    expect(overlapping.ok ? '' : overlapping.reason.text).toContain('23.94 mm');
    const steep = sweptVolumeOf(geometry({ swashAngleRad: measured(72 * DEGREE_RAD) }));
    expect(steep).toMatchObject({ ok: false, reason: { code: 'SWASH_TOO_STEEP' } });
    expect(steep.ok ? '' : steep.reason.text).toContain('72.0°');
  });
});

describe('the ripple of axial pistons', () => {
  it('is that of half sines added up', () => {
    // Formula: Ivantysyn and Ivantysynova (2001), from memory; second route here: the sines added up over a turn.
    for (const count of [1, 2, 5, 7, 8, 9, 10]) {
      const steps = 5040;
      const flows = Array.from({ length: steps }, (_, step) => {
        let flow = 0;
        for (let piston = 0; piston < count; piston += 1) {
          flow += Math.max(0, Math.sin(2 * Math.PI * (step / steps + piston / count)));
        }
        return flow;
      });
      const mean = flows.reduce((sum, flow) => sum + flow, 0) / steps;
      expectRelative(pistonFlowRipple(count), (Math.max(...flows) - Math.min(...flows)) / mean, 1e-4);
    }
    expect(swept(geometry()).flowRipple).toBe(pistonFlowRipple(9));
  });
});
