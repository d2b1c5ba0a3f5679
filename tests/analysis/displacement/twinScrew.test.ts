import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sweptVolumeOf } from '../../../analysis/displacement/sweptVolume.ts';
import {
  boreOverlap,
  type ScrewPair,
  screwPairOpenArea,
  threadInterference,
} from '../../../analysis/displacement/twinScrew.ts';
import type { TwinScrewGeometry } from '../../../analysis/records/geometry/twinScrew.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { samplePump } from '../../support/samples.ts';
import { expectSensitivities, measured, scaledLengths, swept, sweptMm3 } from '../../support/sweptGeometry.ts';

/** D = 100, d = 70 mm at the nominal centre distance. */
const pair: ScrewPair = { startCount: 1, outerRadiusM: 0.05, rootRadiusM: 0.035, centreDistanceM: 0.085 };

function geometry(change: Partial<TwinScrewGeometry> = {}): TwinScrewGeometry {
  return {
    kind: 'twinScrew',
    startCount: 1,
    outerDiameterM: measured(0.1),
    rootDiameterM: measured(0.07),
    runningCentreDistanceM: measured(0.085),
    leadM: measured(0.05),
    ...change,
  };
}

describe('the swept volume of a twin screw pump', () => {
  it('is the lead times the annulus less the lens', () => {
    // Circle-lens geometry: derived here, checked by an independent numerical method.
    expectRelative(boreOverlap(pair) * 1e6, 535.228742, 1e-8);
    expectRelative(sweptMm3(geometry()), 173515.095, 1e-7);
    expect(swept(geometry()).flowRipple).toBe(0);
  });

  it('is not what a misprint of the lens makes of it', () => {
    // Rabie, Fluid Power Engineering, eq. 4.42, as its page text reads: D² (a/2 − sin 2a/2). It makes the lens negative
    // and gives 285 456 mm³, more than the whole annulus carries.
    const angle = Math.acos(0.85);
    const misprinted = 100 ** 2 * (angle / 2 - Math.sin(2 * angle) / 2);
    const annulus = (Math.PI / 4) * (100 ** 2 - 70 ** 2);
    expect(misprinted).toBeLessThan(0);
    expectRelative(50 * (annulus - misprinted), 285456, 2e-6);
    expect(sweptMm3(geometry())).toBeLessThan(50 * annulus);
  });

  it('says of the sample pump how much oil a turn moves', () => {
    // By hand [mm]: D = 45, d = 30, a = 37.55: cos α = 0.834444, α = 0.583720, L = 22.5² (2α − sin 2α) = 125.366;
    // (π/4)(2025 − 900) − L = 758.21 mm²; times 55.4: 42.00 cm³, as the parts list says.
    expectRelative(sweptMm3(samplePump('dredger-return-pump').geometry), 42000, 5e-4);
  });

  it('grows with the cube of the size (seed 63)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        fc.integer({ min: 1, max: 4 }),
        (scale, startCount) => {
          const one = geometry({ startCount, runningCentreDistanceM: measured(0.0853) });
          expectRelative(sweptMm3(scaledLengths(one, scale)), scale ** 3 * sweptMm3(one), 1e-11);
        },
      ),
      { seed: 63, numRuns: 50 },
    );
  });

  it('names its measurements with their sensitivities', () => {
    // Second route: central differences.
    expectSensitivities(geometry({ runningCentreDistanceM: measured(0.086) }), {
      'geometry.outerDiameter': 'outerDiameterM',
      'geometry.rootDiameter': 'rootDiameterM',
      'geometry.centreDistance': 'runningCentreDistanceM',
      'geometry.lead': 'leadM',
    });
  });

  it('is refused where the screws do not reach each other, or stand in each other', () => {
    expect(sweptVolumeOf(geometry({ runningCentreDistanceM: measured(0.1) }))).toMatchObject({
      ok: false,
      reason: { code: 'SCREWS_DO_NOT_MESH', value: 0.1, limit: 0.1 },
    });
    expect(sweptVolumeOf(geometry({ rootDiameterM: measured(0.1) }))).toMatchObject({
      ok: false,
      reason: { code: 'SCREWS_DO_NOT_MESH' },
    });
    const tight = sweptVolumeOf(geometry({ runningCentreDistanceM: measured(0.0845) }));
    // By hand: (100 + 70)/2 = 85 mm, half a millimetre more than there is.
    expect(tight).toMatchObject({ ok: false, reason: { code: 'NEGATIVE_CLEARANCE', value: 0.0845 } });
    expect(tight.ok ? '' : tight.reason.text).toContain('0.50 mm deep');
  });
});

describe('the interference of rectangular threads', () => {
  it('is said with the volume, and is its spread', () => {
    const { sources, basis } = swept(geometry());
    const share = threadInterference(pair) / screwPairOpenArea(pair);
    expectRelative(sources.at(-1)?.standardUncertainty ?? Number.NaN, share / Math.sqrt(3), 1e-12);
    expect(basis).toContain(`${(100 * share).toFixed(2)} %`);
  });

  it('vanishes with the depth of the thread and grows with the starts', () => {
    const shallow = { ...pair, rootRadiusM: 0.0499, centreDistanceM: 0.0999 };
    expect(threadInterference(shallow)).toBeLessThan(1e-4 * threadInterference(pair));
    expectRelative(threadInterference({ ...pair, startCount: 3 }), 3 * threadInterference(pair), 1e-12);
  });
});
