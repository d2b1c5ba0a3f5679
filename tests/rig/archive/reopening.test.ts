import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { type Archive, openArchive } from '../../../rig/archive/openArchive.ts';
import { analyseStoredRun, openStoredRun, readStoredResult } from '../../../rig/session/analyseStoredRun.ts';
import { copySampleRuns } from '../../support/samples.ts';

const RUN = '2026-11-26-0001';

let folder: string;
let archive: Archive;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'slipwright-reopening-'));
  copySampleRuns(folder, [RUN]);
  archive = openArchive(folder);
});
afterEach(() => {
  archive.close();
  rmSync(folder, { recursive: true, force: true });
});

const pathOf = (file: string): string => join(folder, 'runs', RUN, file);

/** Another digit in the middle of the journal: as long as before. */
function changeAByte(): void {
  const journal = readFileSync(pathOf('journal.log'));
  const at = journal.indexOf('1', Math.floor(journal.length / 2));
  journal[at] = '2'.charCodeAt(0);
  writeFileSync(pathOf('journal.log'), journal);
}

it('shows what was analysed without reading the journal again; analysing reads it, and finds a changed byte', () => {
  const { result } = analyseStoredRun(archive, RUN);
  const opened = openStoredRun(archive, RUN);
  changeAByte();
  expect(readStoredResult(archive, RUN).result).toEqual(result);
  expect(openStoredRun(archive, RUN)).toEqual(opened);
  expect(() => analyseStoredRun(archive, RUN)).toThrowError(expect.objectContaining({ code: 'CHANGED' }));
});

it('reads a changed journal for nobody who has no result of it', () => {
  changeAByte();
  expect(() => readStoredResult(archive, RUN)).toThrowError(expect.objectContaining({ code: 'CHANGED' }));
  expect(() => openStoredRun(archive, RUN)).toThrowError(expect.objectContaining({ code: 'CHANGED' }));
});

it('sees a journal of another length even where a result is kept', () => {
  analyseStoredRun(archive, RUN);
  writeFileSync(pathOf('journal.log'), '1\t$1\n', { flag: 'a' });
  expect(() => readStoredResult(archive, RUN)).toThrowError(expect.objectContaining({ code: 'CHANGED' }));
});

it('makes anew what another decoder drew, and what cannot be read', () => {
  const { drawn } = openStoredRun(archive, RUN);
  const kept = JSON.parse(readFileSync(pathOf('drawn.json'), 'utf8'));
  for (const spoilt of [{ ...kept, decoderVersion: 'another' }, { ...kept, journalSha256: '0'.repeat(64) }, '{"to']) {
    writeFileSync(pathOf('drawn.json'), typeof spoilt === 'string' ? spoilt : JSON.stringify(spoilt));
    expect(archive.readDrawn(RUN)).toBeNull();
    expect(openStoredRun(archive, RUN).drawn).toEqual(drawn);
    expect(archive.readDrawn(RUN)).toEqual(drawn);
  }
});
