import { chmodSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openArchive } from '../../../rig/archive/openArchive.ts';
import { fileCertificate } from '../../../rig/certificate/fileCertificate.ts';
import { analyseStoredRun } from '../../../rig/session/analyseStoredRun.ts';
import { keysFor } from '../../../rig/session/signingKeys.ts';
import { accepted } from '../../support/accepted.ts';
import { DRY_RUN, type FiledArchive, filedArchive } from '../../support/filedArchive.ts';
import { runSlipwright } from '../../support/runSlipwright.ts';

let filed: FiledArchive;
beforeAll(async () => {
  filed = await filedArchive();
});
afterAll(() => rmSync(filed.folder, { recursive: true, force: true }));

function certify() {
  return runSlipwright(['certify', DRY_RUN, '--signatory', 'H. Wiese (invented)', '--archive', filed.directory], {
    SLIPWRIGHT_KEYS: join(filed.folder, 'keys'),
  });
}

function filedFiles(): readonly string[] {
  return readdirSync(join(filed.directory, 'certificates')).filter((name) => /^\d/.test(name));
}

/** By a clock that is years ahead, as after a flat battery. */
async function fileAhead(): Promise<void> {
  const issuedAt = new Date('2061-03-01T09:00:00Z');
  const archive = openArchive(filed.directory);
  try {
    const { sealed, result } = analyseStoredRun(archive, DRY_RUN);
    accepted(
      await fileCertificate({
        archive,
        keys: await keysFor('Kanalbau Gearbox Works (invented)', issuedAt, true),
        signatory: 'H. Wiese (invented)',
        programVersion: '0.1.0',
        issuedAt,
        runs: [{ run: sealed.run, closing: sealed.closing, result }],
        readings: {},
      }),
    );
  } finally {
    archive.close();
  }
}

it('files nothing with a key that others may read, and names file and mode', async () => {
  await keysFor('Kanalbau Gearbox Works (invented)', new Date(), true);
  const [key = ''] = readdirSync(join(filed.folder, 'keys')).map((name) => join(filed.folder, 'keys', name));
  chmodSync(key, 0o644);
  const ended = await certify();
  expect({ exitCode: ended.exitCode, stdout: ended.stdout }).toEqual({ exitCode: 2, stdout: '' });
  expect(ended.stderr).toContain(`${key}: mode is 0644`);
  expect(filedFiles()).toEqual([]);
  chmodSync(key, 0o600);
});

it('files with a clock that was set back, and says that the date of issue is in doubt', async () => {
  await fileAhead();
  const ended = await certify();
  expect(ended.exitCode).toBe(0);
  expect(ended.stderr).toMatch(
    /note: The date of issue, .* is in doubt: certificate 2061-0001, .* issued at 2061-03-01T09:00:00Z/,
  );
  expect(ended.stdout).toContain('filed as 2061-0002');
  expect(filedFiles()).toHaveLength(6);
});
