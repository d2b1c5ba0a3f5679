import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { z } from 'zod';
import { checkArchive } from '../../../rig/archive/check/checkArchive.ts';
import { openArchive } from '../../../rig/archive/openArchive.ts';
import { filedNumbers } from '../../../rig/certificate/certificateFolder.ts';
import { analyseStoredRun } from '../../../rig/session/analyseStoredRun.ts';
import { killFilings, startFiler } from '../../kills/killedFilings.ts';
import { DRY_RUN, type FiledArchive, filedArchive } from '../../support/filedArchive.ts';

const FULL_DISK = fileURLToPath(new URL('../../kills/fullDisk.ts', import.meta.url));

let filed: FiledArchive;
beforeAll(async () => {
  filed = await filedArchive([DRY_RUN]);
  const archive = openArchive(filed.directory);
  analyseStoredRun(archive, DRY_RUN);
  archive.close();
});
afterAll(() => rmSync(filed.folder, { recursive: true, force: true }));

// `npm run kills` does this two hundred times.
it('a filing that is killed at a random moment leaves nothing wrong and loses nothing that was acknowledged, seed 20261126', async () => {
  const reports = await killFilings(filed.directory, DRY_RUN, 3, 20_261_126);
  expect(reports.flatMap(({ wrong }) => wrong)).toEqual([]);
});

it('two processes that file at once give every number once, in one chain', async () => {
  const before = filedNumbers(filed.directory).length;
  const filers = [startFiler(filed.directory, DRY_RUN, 3), startFiler(filed.directory, DRY_RUN, 3)];
  expect(await Promise.all(filers.map(({ ended }) => ended))).toEqual(['', '']);
  const numbers = filers.flatMap(({ said }) => said.filter((line) => line.startsWith('certificate ')));
  expect(new Set(numbers).size).toBe(6);
  const versions = filers.flatMap(({ said }) => said.filter((line) => line.startsWith('pump ')));
  expect(new Set(versions).size).toBe(6);
  expect(filedNumbers(filed.directory)).toHaveLength(before + 6);
  const { flaws } = await checkArchive(filed.directory);
  expect(flaws.filter(({ severity }) => severity === 'wrong')).toEqual([]);
});

const told = z.array(
  z.object({
    left: z.number(),
    refusal: z.object({ code: z.string(), message: z.string() }).nullable(),
    added: z.array(z.string()),
    inFiling: z.array(z.string()),
    wrong: z.array(z.unknown()),
  }),
);

/** A file system of 8 MB in a namespace of its own, where this machine lets a person have one; null: it does not. */
function onSmallDisk(args: readonly string[], folder: string): string | null {
  mkdirSync(folder, { recursive: true });
  const script = 'mount -t tmpfs -o size=8m tmpfs "$0" && exec "$@"';
  const ended = spawnSync('unshare', ['--user', '--map-root-user', '--mount', 'bash', '-c', script, folder, ...args], {
    encoding: 'utf8',
  });
  if (ended.error !== undefined || /unshare|mount:/.test(ended.stderr)) return null;
  expect(ended.stderr).toBe('');
  return ended.stdout;
}

it('a disk that is full in the middle of a filing is named, and nothing half written is left: a real one of 8 MB', ({
  skip,
}) => {
  const folder = join(filed.folder, 'disk');
  const kilobytes = ['4', '48', '120', '160', '4000'];
  const said = onSmallDisk(
    [process.execPath, '--import', 'tsx', FULL_DISK, filed.directory, folder, DRY_RUN, ...kilobytes],
    folder,
  );
  if (said === null) return skip('this user may have no file system of that size');
  const filings = told.parse(JSON.parse(said));
  expect(filings).toHaveLength(kilobytes.length);
  for (const { left, refusal, added, inFiling, wrong } of filings) {
    expect({ left, inFiling, wrong }).toEqual({ left, inFiling: [], wrong: [] });
    if (refusal === null) expect(added).toHaveLength(3);
    else
      expect({ left, added, refusal }).toEqual({
        left,
        added: [],
        refusal: expect.objectContaining({ code: 'ARCHIVE', message: expect.stringMatching(/ENOSPC|full/) }),
      });
  }
  expect(filings[0]?.refusal).not.toBeNull();
  expect(filings.at(-1)?.refusal).toBeNull();
});

it('a file that may not grow as large as the certificate is named, and nothing half written is left', () => {
  const folder = join(filed.folder, 'limited');
  // The copy is made without a limit: certificates that are filed already may be larger.
  cpSync(filed.directory, join(folder, 'archive'), { recursive: true });
  // Files of 96 kB at the most: the data fit, the PDF does not.
  const script = 'trap \'\' XFSZ; ulimit -f 96; exec "$0" "$@"';
  const args = ['--import', 'tsx', FULL_DISK, filed.directory, folder, DRY_RUN, '1000000000'];
  const ended = spawnSync('bash', ['-c', script, process.execPath, ...args], { encoding: 'utf8' });
  expect(ended.stderr).toBe('');
  const [filing] = told.parse(JSON.parse(ended.stdout));
  expect(filing).toMatchObject({
    added: [],
    inFiling: [],
    wrong: [],
    refusal: { code: 'ARCHIVE', message: expect.stringContaining('EFBIG') },
  });
});
