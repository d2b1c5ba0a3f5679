import { appendFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { TestDays } from '../../../rig/archive/testDays.ts';

const folder = mkdtempSync(join(tmpdir(), 'slipwright-days-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const BEGUN = { atUtc: '2026-06-01T08:00:00Z', person: 'A. Fitter', step: null, did: 'begun', note: '' } as const;

describe('test days, as they are kept', () => {
  it('are added to and read again by whoever opens the folder', () => {
    const days = new TestDays(folder);
    expect(days.read('feed-pump')).toEqual([]);
    days.add('feed-pump', BEGUN);
    const soak = { ...BEGUN, step: 'soak', did: 'skipped', note: 'no time' } as const;
    expect(days.add('feed-pump', soak)).toEqual([BEGUN, soak]);
    expect(new TestDays(folder).read('feed-pump')).toEqual([BEGUN, soak]);
    expect(days.read('other-pump')).toEqual([]);
  });

  it('refuse a skipped step without its reason, and a pump id that is a path', () => {
    const days = new TestDays(folder);
    expect(() => days.add('feed-pump', { ...BEGUN, step: 'soak', did: 'skipped' })).toThrow(
      /note: a skipped step has a reason/,
    );
    expect(() => days.read('../pumps')).toThrow(/lower case letters/);
    expect(days.read('feed-pump')).toHaveLength(2);
  });

  it('name the line that was cut off', () => {
    appendFileSync(join(folder, 'torn.jsonl'), '{"atUtc":');
    expect(() => new TestDays(folder).read('torn')).toThrow(/torn.jsonl, line 1/);
  });
});
