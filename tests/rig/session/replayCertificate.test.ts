import { appendFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { ANALYSIS_VERSION, changesBetween } from '../../../analysis/analysisVersion.ts';
import { certificatePath } from '../../../rig/certificate/certificateFolder.ts';
import { fileCertificate } from '../../../rig/certificate/fileCertificate.ts';
import { replay } from '../../../rig/commandLine/replay.ts';
import { PROGRAM_VERSION } from '../../../rig/programVersion.ts';
import { type AnalysedRun, analyseStoredRun } from '../../../rig/session/analyseStoredRun.ts';
import { replayCertificate } from '../../../rig/session/replayCertificate.ts';
import { keysFor } from '../../../rig/session/signingKeys.ts';
import { accepted } from '../../support/accepted.ts';
import { DRY_RUN, type FiledArchive, filedArchive } from '../../support/filedArchive.ts';
import { copiedArchive, temporaryArchive } from '../archive/newRun.ts';

let filed: FiledArchive;
beforeAll(async () => {
  filed = await filedArchive([DRY_RUN]);
});
afterAll(() => rmSync(filed.folder, { recursive: true, force: true }));

/** Files a certificate on what somebody made of an analysis, signed as any other. */
async function fileAltered(
  archive: ReturnType<typeof temporaryArchive>,
  alter: (result: AnalysedRun['result']) => AnalysedRun['result'],
): Promise<string> {
  const { sealed, result } = analyseStoredRun(archive, DRY_RUN);
  const { run, closing } = sealed;
  const issuedAt = new Date('2026-11-26T12:00:00Z');
  const request = {
    archive,
    keys: await keysFor(run.bench.workshop, issuedAt, true),
    signatory: 'H. Wiese (invented)',
    programVersion: '0.0.9',
    issuedAt,
    runs: [{ run, closing, result: alter(result) }],
    readings: {},
  };
  return accepted(await fileCertificate(request)).number;
}

/** What the command says, and how it ends. */
async function said(archive: ReturnType<typeof temporaryArchive>, certificate: string) {
  let text = '';
  const speaker = {
    result: (_document: unknown, words: string) => {
      text = words;
    },
    say: () => undefined,
    progress: () => undefined,
  };
  const exitCode = await replay(certificate, archive, speaker);
  return { exitCode, text };
}

it('does every number anew, and finds each as it was filed: by number, by JSON, by PDF alone', async () => {
  const archive = temporaryArchive(copiedArchive(filed));
  const [number = ''] = filed.numbers;
  const replayed = accepted(await replayCertificate(archive, number));
  expect(replayed).toMatchObject({ number, numbers: [], words: [], changes: [] });
  // As many as the file holds.
  expect(replayed.numbersCompared).toBeGreaterThan(300);
  for (const ending of ['json', 'pdf'] as const) {
    const path = certificatePath(filed.directory, number, ending);
    expect(accepted(await replayCertificate(archive, path))).toEqual(replayed);
  }
  expect((await said(archive, number)).exitCode).toBe(0);
});

it('counts what was taken out of the fit when it was certified, whatever was said since', async () => {
  const archive = temporaryArchive(copiedArchive(filed));
  const line = { person: 'A. Fitter (invented)', fromS: 1, toS: 2, isExcluded: true, reason: 'said later' };
  archive.addExclusion(DRY_RUN, { atUtc: '2026-11-27T08:00:00Z', ...line });
  expect(accepted(await replayCertificate(archive, filed.numbers[0] ?? ''))).toMatchObject({ numbers: [], words: [] });
});

it('says which number a later version gives otherwise, and what was changed in it', async () => {
  const archive = temporaryArchive(copiedArchive(filed));
  const number = await fileAltered(archive, (result) => ({
    ...result,
    analysisVersion: '1',
    census: { ...result.census, readingCount: result.census.readingCount + 7 },
  }));
  const { exitCode, text } = await said(archive, number);
  expect(exitCode).toBe(3);
  expect(text).toMatch(/runs\.0\.readingCount: \d+ as filed, \d+ today/);
  expect(text).toContain(`analysis version 1 when it was filed, ${ANALYSIS_VERSION} today`);
  expect(text).toContain(`program 0.0.9 then, ${PROGRAM_VERSION} today`);
  expect(text).toContain('version 2: Calibration curves');
});

it('blames a version that came after this program for another number, not itself', async () => {
  const archive = temporaryArchive(copiedArchive(filed));
  const later = String(Number(ANALYSIS_VERSION) + 3);
  const number = await fileAltered(archive, (result) => ({
    ...result,
    analysisVersion: later,
    census: { ...result.census, readingCount: result.census.readingCount + 7 },
  }));
  const { exitCode, text } = await said(archive, number);
  expect(exitCode).toBe(3);
  expect(text).toMatch(/runs\.0\.readingCount: \d+ as filed, \d+ today/);
  expect(text).toContain(`filed with version ${later} of the analysis, which this program does not know`);
  expect(text).not.toContain('The same version');
});

it('blames no version where the same one gives another number', async () => {
  const archive = temporaryArchive(copiedArchive(filed));
  const number = await fileAltered(archive, (result) => ({
    ...result,
    census: { ...result.census, readingCount: result.census.readingCount + 7 },
  }));
  const { exitCode, text } = await said(archive, number);
  expect(exitCode).toBe(4);
  expect(text).toContain('The same version of the analysis gives other numbers');
});

it('refuses a certificate that is not there, one that was changed, and a run that is not what it was', async () => {
  const archive = temporaryArchive(copiedArchive(filed));
  const [number = ''] = filed.numbers;
  await expect(replayCertificate(archive, '2031-0001')).rejects.toMatchObject({ code: 'UNKNOWN_CERTIFICATE' });
  appendFileSync(join(archive.directory, 'runs', DRY_RUN, 'journal.log'), '1\t$1\n');
  await expect(replayCertificate(archive, number)).rejects.toMatchObject({ code: 'CHANGED' });
  appendFileSync(certificatePath(archive.directory, number, 'json'), ' ');
  await expect(replayCertificate(archive, number)).rejects.toMatchObject({
    code: 'CHANGED',
    message: expect.stringContaining(`${number}.json`),
  });
});

it('tells the changes between two versions of the analysis, oldest first, and none where they are the same', () => {
  expect(changesBetween('1', ANALYSIS_VERSION)).toHaveLength(Number(ANALYSIS_VERSION) - 1);
  expect(changesBetween('1', '2')).toEqual([expect.stringMatching(/^version 2: /)]);
  expect(changesBetween('2', '2')).toEqual([]);
});
