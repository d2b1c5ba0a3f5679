import type { X509Certificate } from 'node:crypto';
import { mkdirSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import { noticeReason } from '../../analysis/certificate/certificateData.ts';
import { type KeyChangeData, keyChangeData } from '../../analysis/certificate/keyChangeData.ts';
import { readRecordFile, recordText } from '../archive/recordFile.ts';
import { syncFolder, writeWholeFile } from '../archive/wholeFile.ts';
import { certificateFolder, nextPlace, noticeNames } from './certificateFolder.ts';
import { type FilingArchive, utcSecond } from './fileCertificate.ts';
import { fingerprintOf, NEXT_KEY_FILE, openKeys, subjectOf, WORKSHOP_KEY_FILE, type WorkshopKeys } from './keys.ts';
import { signJws } from './signature/jws.ts';

const KEY_NOTICE = /^key-(\d{4})\.json$/;

export type KeyChangeRequest = {
  readonly archive: Pick<FilingArchive, 'directory' | 'withFilingLock'>;
  readonly keyFolder: string;
  readonly passphrase: string | null;
  readonly workshop: string;
  readonly signatory: string;
  readonly reason: string;
  readonly changedAt: Date;
};

function named(certificate: X509Certificate): KeyChangeData['before'] {
  return {
    subject: subjectOf(certificate),
    certificateSha256: fingerprintOf(certificate),
    certificatePem: certificate.toString(),
  };
}

function keyNotices(folder: string): readonly string[] {
  return noticeNames(folder)
    .filter((name) => KEY_NOTICE.test(name))
    .sort();
}

/** The old key stays beside the new one under the beginning of its fingerprint: what it signed stays known here. */
function putInPlace(keyFolder: string, before: WorkshopKeys): void {
  const retired = `signing-${fingerprintOf(before.certificate).slice(0, 16)}.pem`;
  renameSync(join(keyFolder, WORKSHOP_KEY_FILE), join(keyFolder, retired));
  renameSync(join(keyFolder, NEXT_KEY_FILE), join(keyFolder, WORKSHOP_KEY_FILE));
  syncFolder(keyFolder);
}

async function change(request: KeyChangeRequest): Promise<KeyChangeData> {
  const { archive, keyFolder, passphrase, workshop, signatory, changedAt } = request;
  const reason = noticeReason.parse(request.reason);
  const open = (file: typeof WORKSHOP_KEY_FILE | typeof NEXT_KEY_FILE) =>
    openKeys(workshop, changedAt, keyFolder, file, passphrase);
  const [before, after] = [await open(WORKSHOP_KEY_FILE), await open(NEXT_KEY_FILE)];
  const folder = certificateFolder(archive.directory);
  mkdirSync(folder, { recursive: true });
  const last = keyNotices(folder).at(-1);
  const filed = last === undefined ? null : readRecordFile(keyChangeData, join(folder, last));
  // A change that was filed and then cut off is ended, not filed again.
  if (filed?.after.certificateSha256 === fingerprintOf(after.certificate)) {
    putInPlace(keyFolder, before);
    return filed;
  }
  const data = keyChangeData.parse({
    format: 'slipwright.keyChange/1',
    changedAtUtc: utcSecond(changedAt),
    signatory,
    reason,
    before: named(before.certificate),
    after: named(after.certificate),
    ...nextPlace(archive.directory),
  } satisfies KeyChangeData);
  const json = Buffer.from(recordText(data));
  const stem = `key-${String(Number(KEY_NOTICE.exec(last ?? '')?.[1] ?? 0) + 1).padStart(4, '0')}`;
  writeWholeFile(join(folder, `${stem}.old.jws`), await signJws(json, before), 'replace');
  writeWholeFile(join(folder, `${stem}.new.jws`), await signJws(json, after), 'replace');
  // Last: with the notice the change is filed.
  writeWholeFile(join(folder, `${stem}.json`), json);
  putInPlace(keyFolder, before);
  return data;
}

/**
 * Makes a new workshop key and files the change in the archive: the old key signs it and the new one, and the next
 * certificate names it in its chain.
 *
 * @param request - archive, key folder, passphrase, who changes it, why, when [-]
 * @returns the notice as it was filed [-]
 * @throws KeyError if a key cannot be made or used, ArchiveError if the files cannot be written
 */
export async function changeKey(request: KeyChangeRequest): Promise<KeyChangeData> {
  return request.archive.withFilingLock(() => change(request));
}
