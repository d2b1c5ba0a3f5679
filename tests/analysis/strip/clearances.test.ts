import { describe, expect, it } from 'vitest';
import { endFloatOf } from '../../../analysis/strip/endFloat.ts';
import { bushClearanceOf, tipClearanceOf } from '../../../analysis/strip/radialClearances.ts';
import { sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { feedSheet, reading } from '../../support/gapSheets.ts';

function depths(change: Readonly<Record<string, unknown>> = {}) {
  const { endFloat } = feedSheet({
    endFloat: {
      method: 'gasketAndDepths',
      recessDepthM: reading(0.01995, 3e-6),
      gearWidthM: reading(0.02, 2e-6),
      gasketMaterial: 'paper',
      gasketThicknessM: reading(120e-6, 4e-6),
      gasketCrushM: reading(20e-6, 4e-6),
      ...change,
    },
  });
  if (endFloat === null) throw new Error('no end float');
  return endFloat;
}

describe('end float', () => {
  it('is depth and gasket, less its crush and the gears, with the uncertainty of each', () => {
    // By hand [µm]: 19 950 + 120 − 20 − 20 000 = 50; u = √(3² + 4² + 4² + 2²) = √45 = 6.708204.
    const float = endFloatOf(depths());
    if (!float.ok) throw new Error(float.reason.code);
    const stated = stateUncertainty(float.value.clearanceM, sourceTable(float.value.sources));
    expectRelative(stated.value, 50e-6, 1e-9);
    expectRelative(stated.standardUncertainty, Math.sqrt(45) * 1e-6, 1e-9);
    expect(float.value.sources.map(({ label }) => label)).toEqual([
      'depth of the gear chamber',
      'gasket thickness',
      'crush of the gasket',
      'width of the gears',
    ]);
  });

  it('is what was felt, where it was felt', () => {
    const { endFloat } = feedSheet({ endFloat: { method: 'direct', endFloatM: reading(60e-6, 5e-6) } });
    if (endFloat === null) throw new Error('no end float');
    const float = endFloatOf(endFloat);
    expect(float).toMatchObject({
      ok: true,
      value: { clearanceM: { value: 60e-6, sensitivities: { 'strip.endFloat': 1 } } },
    });
  });

  it('refuses a gasket thicker than the recess, a crush beyond the gasket, and gears wider than their room', () => {
    expect(endFloatOf(depths({ gasketThicknessM: reading(0.12) }))).toMatchObject({
      ok: false,
      reason: { code: 'GASKET_THICKER_THAN_RECESS', quantity: 'gasket thickness [m]', value: 0.12, limit: 0.01995 },
    });
    expect(endFloatOf(depths({ gasketCrushM: reading(130e-6) }))).toMatchObject({
      ok: false,
      reason: { code: 'CRUSH_BEYOND_GASKET', quantity: 'gasket crush [m]', value: 130e-6, limit: 120e-6 },
    });
    const wide = endFloatOf(depths({ gearWidthM: reading(0.0201) }));
    expect(wide).toMatchObject({
      ok: false,
      reason: { code: 'NEGATIVE_CLEARANCE', quantity: 'end float [m]', limit: 0 },
    });
    // By hand: 19 950 + 120 − 20 − 20 100 = −50 µm.
    expect(wide.ok ? '' : wide.reason.text).toContain('-0.050 mm');
  });
});

describe('radial clearances', () => {
  it('takes half of bore less tip diameter, with half their uncertainties', () => {
    // By hand: (42.08 − 42)/2 = 0.04 mm; u = √(4² + 3²)/2 = 2.5 µm.
    const tip = tipClearanceOf({
      method: 'diameters',
      part: 'driver',
      boreDiameterM: { ...reading(0.04208, 4e-6), limit: null, note: '' },
      tipDiameterM: { ...reading(0.042, 3e-6), limit: null, note: '' },
      limit: null,
    });
    if (!tip.ok) throw new Error(tip.reason.code);
    const stated = stateUncertainty(tip.value.clearanceM, sourceTable(tip.value.sources));
    expectRelative(stated.value, 40e-6, 1e-9);
    expectRelative(stated.standardUncertainty, 2.5e-6, 1e-9);
  });

  it('takes the whole of bore less shaft for a bush, and names its sources by its place in the sheet', () => {
    const [first] = feedSheet().shaftsInBushes;
    if (first === undefined) throw new Error('no bush');
    const bush = bushClearanceOf(first, 3);
    if (!bush.ok) throw new Error(bush.reason.code);
    expectRelative(bush.value.clearanceM.value, 32e-6, 1e-9);
    expect(Object.keys(bush.value.clearanceM.sensitivities)).toEqual(['strip.bush.3.bore', 'strip.bush.3.shaft']);
  });
});
