import { describe, expect, it } from 'vitest';
import { longestDryTurningS, whyNeverDry } from '../../../analysis/guide/dryTurning.ts';
import { samplePump } from '../../support/samples.ts';

const PUMP = samplePump('dredger-feed-pump');

describe('whether a pump may be turned dry', () => {
  it('lets a metal pump with a lip seal turn', () => {
    expect(whyNeverDry(PUMP)).toBeNull();
  });

  it('never one whose record forbids it', () => {
    expect(whyNeverDry({ ...PUMP, mayRunDry: false })).toContain('so its record says');
  });

  it('never a rubber stator, nor seal faces that oil must part, whatever the record says', () => {
    expect(whyNeverDry({ ...PUMP, type: 'progressing cavity' })).toContain('stator');
    const faceSeal = { where: 'driver, coupling end', sealedBy: 'face seal', note: '' } as const;
    expect(whyNeverDry({ ...PUMP, shaftEnds: [...PUMP.shaftEnds, faceSeal] })).toContain('driver, coupling end');
  });

  it('ten seconds bone dry, thirty oiled: house limits from common practice, no source', () => {
    expect(longestDryTurningS('W0')).toBe(10);
    for (const wetness of ['W1', 'W2', 'W3'] as const) expect(longestDryTurningS(wetness)).toBe(30);
  });
});
