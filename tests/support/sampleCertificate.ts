import { mkdirSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Archive, openArchive } from '../../rig/archive/openArchive.ts';
import type { FiledCertificate } from '../../rig/certificate/fileCertificate.ts';
import { type FilingWishes, fileRunCertificate } from '../../rig/session/fileRunCertificate.ts';
import { copySampleRuns } from './samples.ts';

const RUN_IDS = ['2026-11-26-0001', '2026-11-26-0002'] as const;

/** An archive that holds the first two sample runs: a dry start and a delivery run of the feed pump. */
export function sampleArchive(): Archive {
  const folder = join(mkdtempSync(join(tmpdir(), 'slipwright-sample-')), 'archive');
  mkdirSync(folder);
  copySampleRuns(folder, RUN_IDS);
  return openArchive(folder);
}

/** Files a certificate on both of them, with a key that is made for it. */
export async function fileSample(archive: Archive, wishes: FilingWishes = {}): Promise<FiledCertificate> {
  const before = process.env.SLIPWRIGHT_KEYS;
  process.env.SLIPWRIGHT_KEYS = join(archive.directory, '..', 'keys');
  try {
    const filed = await fileRunCertificate(archive, RUN_IDS, 'W. Anker (invented)', wishes);
    if (!filed.ok) throw new Error(filed.reason.text);
    return filed.value;
  } finally {
    if (before === undefined) delete process.env.SLIPWRIGHT_KEYS;
    else process.env.SLIPWRIGHT_KEYS = before;
  }
}
