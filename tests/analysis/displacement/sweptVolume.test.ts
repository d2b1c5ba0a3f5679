import { describe, expect, it } from 'vitest';
import { sweptVolumeOf } from '../../../analysis/displacement/sweptVolume.ts';
import { sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { samplePump } from '../../support/samples.ts';

describe('sweptVolumeOf', () => {
  it('takes a stated volume at its word, with the uncertainty stated beside it', () => {
    // By hand: one source of sensitivity 1, so u is the stated one and the budget has one line.
    const swept = sweptVolumeOf({
      kind: 'asStated',
      sweptVolumeM3PerRev: { value: 25e-6, standardUncertainty: 0.2e-6 },
      statedBy: 'an invented data sheet',
    });
    if (!swept.ok) throw new Error(swept.reason.code);
    const stated = stateUncertainty(swept.value.sweptVolume, sourceTable(swept.value.sources));
    expect(stated.value).toBe(25e-6);
    expectRelative(stated.standardUncertainty, 0.2e-6, 1e-12);
    expect(stated.budget.map(({ label }) => label)).toEqual(['swept volume as stated by an invented data sheet']);
    expect(swept.value.flowRipple).toBeNull();
    expect(swept.value.basis).toBe('as stated by an invented data sheet');
  });

  it('computes an external gear pump from its measurements', () => {
    // The demo feed pump has m = 3 mm, 12 + 12 teeth, d_a = 42 mm, a = 36 mm, b = 20 mm: 13 881.2767 mm³ (Manring and
    // Kasaragadda, 2003, recomputed).
    const swept = sweptVolumeOf(samplePump('dredger-feed-pump').geometry);
    if (!swept.ok) throw new Error(swept.reason.code);
    expectRelative(swept.value.sweptVolume.value, 13881.2767e-9, 1e-8);
  });

  it('begins every source of geometry with that word', () => {
    for (const id of ['dredger-feed-pump', 'dredger-return-pump'] as const) {
      const swept = sweptVolumeOf(samplePump(id).geometry);
      if (!swept.ok) throw new Error(swept.reason.code);
      for (const source of swept.value.sources) expect(source.id).toMatch(/^geometry\./);
      const used = Object.keys(swept.value.sweptVolume.sensitivities).sort();
      expect(swept.value.sources.map((source) => source.id).sort()).toEqual(used);
    }
  });
});
