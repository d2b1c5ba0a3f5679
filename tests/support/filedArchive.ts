import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openArchive } from '../../rig/archive/openArchive.ts';
import { fileRunCertificate } from '../../rig/session/fileRunCertificate.ts';
import { installSampleRecords } from '../../rig/session/sampleRecords.ts';
import { copySampleRuns } from './samples.ts';

export const DRY_RUN = '2026-11-26-0001';
export const DELIVERY_RUN = '2026-11-26-0002';

export type FiledArchive = { readonly folder: string; readonly directory: string; readonly numbers: readonly string[] };

/**
 * An archive with the sample records, the two sample runs and certificates on them: one for each list of runs. Keys lie beside
 * it, and the environment names them.
 */
export async function filedArchive(...certificates: readonly (readonly string[])[]): Promise<FiledArchive> {
  const folder = mkdtempSync(join(tmpdir(), 'slipwright-filed-'));
  process.env.SLIPWRIGHT_KEYS = join(folder, 'keys');
  const directory = join(folder, 'archive');
  copySampleRuns(directory, [DRY_RUN, DELIVERY_RUN]);
  const archive = openArchive(directory);
  try {
    installSampleRecords(archive);
    const numbers: string[] = [];
    for (const runIds of certificates) {
      const filed = await fileRunCertificate(archive, runIds, 'H. Wiese (invented)');
      if (!filed.ok) throw new Error(filed.reason.text);
      numbers.push(filed.value.number);
    }
    return { folder, directory, numbers };
  } finally {
    archive.close();
  }
}
