import { describe, expect, it } from 'vitest';
import { judgeStripSheet } from '../../../analysis/strip/judgeStripSheet.ts';
import { feedSheet, reading } from '../../support/gapSheets.ts';
import { sampleStrip } from '../../support/samples.ts';

/** The plain word for a measurement of the sheet. */
function word(sheet: ReturnType<typeof feedSheet>, label: string): string | undefined {
  const found = judgeStripSheet(sheet).measurements.find((entry) => entry.label === label);
  if (found === undefined) return undefined;
  return found.outcome.ok ? found.outcome.value.plainly : found.outcome.reason.code;
}

const backlash = (valueM: number, uncertaintyM: number, limit: object | null) =>
  feedSheet({ backlashM: { ...reading(valueM, uncertaintyM), limit } });
const limit = { atLeast: 50e-6, atMost: 300e-6, origin: 'house limit' };

describe('judgeStripSheet', () => {
  it('finds nothing open on the demo pumps, and knows every measurement of theirs', () => {
    for (const id of ['dredger-feed-pump', 'dredger-return-pump'] as const) {
      const judged = judgeStripSheet(sampleStrip(id));
      expect(judged.open).toEqual([]);
      expect(judged.measurements.every(({ outcome }) => outcome.ok)).toBe(true);
    }
    expect(judgeStripSheet(feedSheet()).measurements.map(({ label }) => label)).toEqual(
      expect.arrayContaining([
        'end float',
        'tip clearance, driven',
        'clearance of the shaft, driven, far end',
        'shaft diameter, driven, far end',
        'backlash',
        'flatness, cover',
        'turning torque, free',
        'turning torque, tight spot at 120°',
      ]),
    );
  });

  it('judges with a guard band of the expanded uncertainty', () => {
    // JCGM 106:2012, 8.3, w = U = 1.96 · 10 µm: 0.3 mm is kept for certain up to 0.2804 mm, and broken from 0.3196 mm.
    expect(word(backlash(280e-6, 10e-6, limit), 'backlash')).toBe('within the limit');
    expect(word(backlash(281e-6, 10e-6, limit), 'backlash')).toBe('too close to the limit for this instrument');
    expect(word(backlash(319e-6, 10e-6, limit), 'backlash')).toBe('too close to the limit for this instrument');
    expect(word(backlash(320e-6, 10e-6, limit), 'backlash')).toBe('above the limit');
    expect(word(backlash(20e-6, 10e-6, limit), 'backlash')).toBe('below the limit');
    expect(word(backlash(20e-6, 10e-6, { atMost: 300e-6, origin: 'maker' }), 'backlash')).toBe('within the limit');
    expect(word(backlash(20e-6, 10e-6, null), 'backlash')).toBe('no limit known');
  });

  it('lists what must be seen to before it runs', () => {
    const open = judgeStripSheet(
      feedSheet({
        backlashM: { ...reading(500e-6, 10e-6), limit },
        nicks: [{ where: 'cover', what: 'score', isDressed: false }],
        fasteners: [
          { where: 'cover studs M8', count: 6, locking: 'tab washer', isLocked: false },
          { where: 'coupling nut', count: 1, locking: 'split pin', isLocked: true },
          { where: 'foot bolts', count: 4, locking: 'none', isLocked: true },
        ],
      }),
    ).open;
    expect(open).toEqual([
      'backlash: above the limit',
      'cover: score, not dressed',
      'cover studs M8, 6: not locked (tab washer)',
      'foot bolts, 4: not locked (none)',
    ]);
  });

  it('shows an impossible sum as what it is', () => {
    const sheet = feedSheet({
      tipClearances: [
        { method: 'diameters', part: 'driver', boreDiameterM: reading(0.041), tipDiameterM: reading(0.042) },
      ],
    });
    expect(word(sheet, 'tip clearance, driver')).toBe('NEGATIVE_CLEARANCE');
    expect(judgeStripSheet(sheet).open[0]).toContain('tip clearance, driver comes out at -0.500 mm');
  });

  it('is silent about what was not measured', () => {
    const bare = judgeStripSheet(
      feedSheet({
        endFloat: null,
        tipClearances: [],
        shaftsInBushes: [],
        backlashM: null,
        faceFlatness: [],
        turning: null,
      }),
    );
    expect(bare).toEqual({ measurements: [], open: [] });
  });
});
