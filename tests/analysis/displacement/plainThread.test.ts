import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dragFlowPerTurn, grooveDragFactor } from '../../../analysis/displacement/plainThread.ts';
import { sweptVolumeOf } from '../../../analysis/displacement/sweptVolume.ts';
import type { PlainThreadGeometry } from '../../../analysis/records/geometry/plainThread.ts';
import { pumpRecord } from '../../../analysis/records/pumpRecord.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { measured } from '../../support/sweptGeometry.ts';

function geometry(change: Partial<PlainThreadGeometry> = {}): PlainThreadGeometry {
  return {
    kind: 'plainThread',
    startCount: 1,
    boreDiameterM: measured(0.03),
    grooveDepthM: measured(0.001),
    grooveWidthM: measured(0.005),
    leadM: measured(0.008),
    ...change,
  };
}

describe('grooveDragFactor', () => {
  it('is one half for a square groove, and shares 1 with the groove turned on its side', () => {
    // Derived here, no outside source: with all four walls moving at the same speed the oil moves as a block, so the
    // means that each wall drives add up to 1: F(h)/2 twice and F(1/h)/2 twice.
    expectRelative(grooveDragFactor(1), 0.5, 1e-7);
    for (const ratio of [0.1, 0.3, 0.7]) {
      expectRelative(grooveDragFactor(ratio) + grooveDragFactor(1 / ratio), 1, 1e-6);
    }
  });

  it('falls from 1 in a straight line for shallow grooves', () => {
    // From the line above: F(1/h) for a deep groove is (16 h/π³) Σ 1/i³ = (14 ζ(3)/π³) h, so F(h) = 1 − 0.54275 h.
    const slope = (14 * 1.2020569031595942) / Math.PI ** 3;
    for (const ratio of [0.02, 0.1, 0.2]) expectRelative(grooveDragFactor(ratio), 1 - slope * ratio, 1e-6);
    // Texts on extrusion (Tadmor and Klein, 1970, from memory) fit 1 − 0.571 H/W below 0.6.
    for (const ratio of [0.1, 0.4, 0.6]) expectRelative(grooveDragFactor(ratio), 1 - 0.571 * ratio, 0.035);
  });
});

describe('a plain thread in a bore', () => {
  it('drags what half the wall speed carries through the groove', () => {
    // By hand: π D = 94.2478 mm, cos φ = 1/√(1 + (8/94.2478)²) = 0.996417; W = 4.982083 mm, path 93.91009 mm,
    // H/W = 0.200719, F = 1 − 0.54275 H/W = 0.891060; ½ W H · path · F = 208.449 mm³.
    expectRelative(dragFlowPerTurn(geometry()), 208.449e-9, 1e-5);
  });

  it('is taken in a pump record', () => {
    expect(pumpRecord.shape.geometry.parse(geometry())).toEqual(geometry());
  });

  it('has no swept volume, and says why and what it drags', () => {
    const refused = sweptVolumeOf(geometry());
    expect(refused).toMatchObject({
      ok: false,
      reason: { code: 'VISCOUS_DRAG_PUMP', value: dragFlowPerTurn(geometry()), limit: 0 },
    });
    expect(refused.ok ? '' : refused.reason.text).toContain('displaces nothing positively');
    expect(refused.ok ? '' : refused.reason.text).toContain('0.208 cm³');
  });

  it('is refused where the grooves leave no land', () => {
    expect(sweptVolumeOf(geometry({ startCount: 2 }))).toMatchObject({
      ok: false,
      reason: { code: 'GROOVES_OVERLAP', value: 0.01, limit: 0.008 },
    });
  });

  it('drags with the cube of the size (seed 67)', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 20, noNaN: true }), (scale) => {
        const scaled = geometry({
          boreDiameterM: measured(0.03 * scale),
          grooveDepthM: measured(0.001 * scale),
          grooveWidthM: measured(0.005 * scale),
          leadM: measured(0.008 * scale),
        });
        expectRelative(dragFlowPerTurn(scaled), scale ** 3 * dragFlowPerTurn(geometry()), 1e-11);
      }),
      { seed: 67, numRuns: 50 },
    );
  });
});
