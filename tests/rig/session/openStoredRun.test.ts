import { appendFileSync, copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Archive, openArchive } from '../../../rig/archive/openArchive.ts';
import { analyseStoredRun, openStoredRun } from '../../../rig/session/analyseStoredRun.ts';
import { copySampleRuns } from '../../support/samples.ts';

const RUN = '2026-11-26-0002';

describe('a sealed run that is opened', () => {
  let folder: string;
  let archive: Archive;
  const inRun = (name: string): string => join(folder, 'runs', RUN, name);
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'slipwright-open-'));
    copySampleRuns(folder, [RUN]);
    archive = openArchive(folder);
  });
  afterEach(() => {
    archive.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('is shown the second time as it was kept the first time, without being decoded', () => {
    const first = openStoredRun(archive, RUN);
    const kept = readFileSync(inRun('drawn.json'));
    // Another byte, the length the same: whoever only looks does not read the journal again.
    const journal = readFileSync(inRun('journal.log'));
    copyFileSync(inRun('journal.log'), join(folder, 'journal.kept'));
    journal[journal.length - 3] = 0x21;
    writeFileSync(inRun('journal.log'), journal);
    expect(openStoredRun(archive, RUN)).toEqual(first);
    expect(readFileSync(inRun('drawn.json'))).toEqual(kept);
    // Whoever analyses does.
    expect(() => analyseStoredRun(archive, RUN)).toThrowError(expect.objectContaining({ code: 'CHANGED' }));
  });

  it('is refused when its journal is longer than it was sealed', () => {
    openStoredRun(archive, RUN);
    appendFileSync(inRun('journal.log'), 'x');
    expect(() => openStoredRun(archive, RUN)).toThrowError(expect.objectContaining({ code: 'CHANGED' }));
  });

  it('makes a spoiled or foreign drawing anew', () => {
    const { drawn } = openStoredRun(archive, RUN);
    writeFileSync(inRun('drawn.json'), '{"half');
    expect(openStoredRun(archive, RUN).drawn).toEqual(drawn);
    const kept = JSON.parse(readFileSync(inRun('drawn.json'), 'utf8'));
    const foreign = { ...kept, journalSha256: '0'.repeat(64), drawn: { ...kept.drawn, speedUp: 99 } };
    writeFileSync(inRun('drawn.json'), JSON.stringify(foreign));
    expect(openStoredRun(archive, RUN).drawn.speedUp).toBe(drawn.speedUp);
  });

  it('is analysed anew once a hold was taken out of the fit', () => {
    const { result } = openStoredRun(archive, RUN);
    const [hold] = result.delivery?.holds ?? [];
    if (hold === undefined) throw new Error('sample');
    archive.addExclusion(RUN, {
      atUtc: '2026-11-26T08:00:00Z',
      person: 'invented',
      fromS: hold.startS,
      toS: hold.endS,
      isExcluded: true,
      reason: 'invented',
    });
    const again = openStoredRun(archive, RUN).result;
    expect(again.delivery?.holds[0]?.leftOut).toEqual({ cause: 'person', reason: 'invented' });
    expect(again.exclusions).toHaveLength(1);
    writeFileSync(inRun('exclusions.jsonl'), `${readFileSync(inRun('exclusions.jsonl'), 'utf8')}{"torn`);
    expect(() => archive.readExclusions(RUN)).toThrowError(/exclusions\.jsonl, line 2/);
    expect(() => openStoredRun(archive, RUN)).toThrowError(/exclusions\.jsonl, line 2/);
  });
});
