import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { CertifiedRun } from '../../analysis/certificate/certifiedRun.ts';
import { type Archive, openArchive } from '../../rig/archive/openArchive.ts';
import { type FiledCertificate, fileCertificate } from '../../rig/certificate/fileCertificate.ts';
import { openKeys, type WorkshopKeys } from '../../rig/certificate/keys.ts';
import { deliveryRun, dryLiftReadings, dryLiftRun } from './certificateRuns.ts';

export const ISSUED_AT = new Date('2026-06-12T09:00:00.400Z');

export type CertificateRig = { readonly archive: Archive; readonly keys: WorkshopKeys; readonly keyFolder: string };

/** An empty archive and a new key, each in a folder of its own. */
export async function certificateRig(): Promise<CertificateRig> {
  const folder = mkdtempSync(join(tmpdir(), 'slipwright-certificate-'));
  const keyFolder = join(folder, 'keys');
  const keys = await openKeys('Kanalbau Gearbox Works (invented)', new Date('2026-06-01T00:00:00Z'), keyFolder);
  return { archive: openArchive(join(folder, 'archive')), keys, keyFolder };
}

/** Files a certificate of the invented dredger pump. */
export async function fileOne(
  { archive, keys }: CertificateRig,
  runs: readonly CertifiedRun[] = [deliveryRun(), dryLiftRun()],
  issuedAt: Date = ISSUED_AT,
  replaces?: { readonly number: string; readonly reason: string },
): Promise<FiledCertificate> {
  const filed = await fileCertificate({
    archive,
    keys,
    signatory: 'H. Wiese (invented)',
    programVersion: '0.1.0',
    issuedAt,
    runs,
    readings: { '20260611-drylift-1': dryLiftReadings() },
    replaces,
  });
  if (!filed.ok) throw new Error(filed.reason.text);
  return filed.value;
}
