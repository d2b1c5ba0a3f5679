import { describe, expect, it } from 'vitest';
import { internalGearSweptVolume } from '../../../analysis/displacement/internalGear.ts';
import type { InternalGearGeometry } from '../../../analysis/records/geometry/internalGear.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { INTERNAL_GEARS } from '../../support/internalGearPump.ts';

function length(mm: number) {
  return { value: mm / 1000, standardUncertainty: 10e-6 };
}

function geometry(change: Partial<InternalGearGeometry> = {}): InternalGearGeometry {
  return { ...INTERNAL_GEARS, ...change };
}

describe('internalGearSweptVolume', () => {
  it('follows the formula of a pinion in a ring', () => {
    // By hand [mm]: r_1 = 19.5, r_2 = 28.5, p_b = 8.856394;
    // π 20 [(22.5² − 19.5²) + (13/19)(28.5² − 27²) − (6/19) 8.856394²/12] = π 20 [126 + 56.960526 − 2.064096] = 11 366.058.
    const swept = accepted(internalGearSweptVolume(geometry()));
    expectRelative(swept.sweptVolume.value, 11366.058e-9, 1e-7);
    expect(swept.basis).toContain('13 teeth in a ring of 19');
  });

  it('names every measurement it rests on, with its sensitivity', () => {
    // Second route: central differences of the closed formula.
    const { sweptVolume, sources } = accepted(internalGearSweptVolume(geometry()));
    expect(sources.map(({ id }) => id)).toEqual([
      'geometry.pinionTipDiameter',
      'geometry.ringTipDiameter',
      'geometry.centreDistance',
      'geometry.faceWidth',
      'geometry.model',
    ]);
    const step = 1e-6;
    for (const [id, key] of [
      ['geometry.pinionTipDiameter', 'pinionTipDiameterM'],
      ['geometry.ringTipDiameter', 'ringTipDiameterM'],
      ['geometry.centreDistance', 'runningCentreDistanceM'],
      ['geometry.faceWidth', 'faceWidthM'],
    ] as const) {
      const value = (by: number): number => {
        const measured = { value: geometry()[key].value + by, standardUncertainty: 0 };
        return accepted(internalGearSweptVolume(geometry({ [key]: measured }))).sweptVolume.value;
      };
      expectRelative(sweptVolume.sensitivities[id] ?? Number.NaN, (value(step) - value(-step)) / (2 * step), 1e-6);
    }
  });

  it('trusts the formula less where grooves are missing', () => {
    const model = (hasReliefGrooves: boolean): number =>
      accepted(internalGearSweptVolume(geometry({ hasReliefGrooves }))).sources.at(-1)?.standardUncertainty ??
      Number.NaN;
    expectRelative(model(true), 0.005 / Math.sqrt(3), 1e-12);
    expect(model(false)).toBeGreaterThan(model(true));
  });

  it('refuses tips that run into each other as they leave the mesh', () => {
    // Standard addenda on a difference of six teeth: textbooks ask for eight or so at 20° (from memory). By hand [mm]:
    // the tip circles 22.5 and 25.5 on 9 cross at δ_1 = arccos((25.5² − 22.5² − 81)/405) = 80.95°, δ_2 =
    // arccos((25.5² − 22.5² + 81)/459) = 60.62°. Half-angles at the tips: ψ_b1 = π/26 + inv 20° = 0.135735 less
    // inv arccos(18.324006/22.5) = 0.093453: 0.042282; ring π/38 + inv 20° = 0.097578 (tip inside its base circle).
    // Room 25.5 (0.097578 + (1.412836 − 0.042282) 13/19 − 1.058018) = −0.5597 mm.
    const standard = internalGearSweptVolume(
      geometry({ ringTipDiameterM: length(51), backlashM: { value: 0, standardUncertainty: 0 } }),
    );
    if (standard.ok) throw new Error('taken');
    expect(standard.reason.code).toBe('TIP_INTERFERENCE');
    expectRelative(standard.reason.value, -0.5597e-3, 2e-3);
    expect(standard.reason.text).toContain('0.56 mm');
  });

  it('refuses gears that do not reach each other', () => {
    expect(internalGearSweptVolume(geometry({ runningCentreDistanceM: length(4.4) }))).toMatchObject({
      ok: false,
      reason: { code: 'TIP_BELOW_PITCH' },
    });
  });
});
