import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Archive } from '../archive/openArchive.ts';
import { writeWholeFile } from '../archive/wholeFile.ts';
import { changeKey } from '../certificate/changeKey.ts';
import {
  defaultKeyFolder,
  defaultPassphrase,
  fingerprintOf,
  openKeys,
  protectKey,
  subjectOf,
  WORKSHOP_KEY_FILE,
} from '../certificate/keys.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { Speaker } from './speaker.ts';
import { WrongUse } from './wrongUse.ts';

function keyPath(): string {
  const path = join(defaultKeyFolder(), WORKSHOP_KEY_FILE);
  if (!existsSync(path)) throw new WrongUse(`no key is made yet (${path}): it is, when the first certificate is filed`);
  return path;
}

/** `slipwright key show` and `key export`: whose the workshop's key is; its certificate for those who verify. */
export async function exportKey(out: string | undefined, speaker: Speaker): Promise<ExitCode> {
  const path = keyPath();
  const { certificate } = await openKeys('', new Date());
  if (out !== undefined) writeWholeFile(out, certificate.toString());
  const facts = {
    path,
    subject: subjectOf(certificate),
    certificateSha256: fingerprintOf(certificate),
    validTo: certificate.validTo,
    ...(out === undefined ? {} : { out }),
  };
  const where = out === undefined ? '' : `\nits certificate: ${out}`;
  speaker.result(facts, `${path}\n${facts.subject}\nSHA-256 of its certificate ${facts.certificateSha256}${where}`);
  return EXIT.done;
}

/** `slipwright key protect`: the key is kept under the passphrase of the environment from then on. */
export function protect(speaker: Speaker): ExitCode {
  const path = keyPath();
  const passphrase = defaultPassphrase();
  if (passphrase === null) throw new WrongUse('set SLIPWRIGHT_KEY_PASSPHRASE to the passphrase first');
  protectKey(passphrase);
  speaker.result({ path, isProtected: true }, `${path} is under the passphrase`);
  return EXIT.done;
}

/** `slipwright key change`: a new key; the change is filed in the archive, signed by both. */
export async function changeWorkshopKey(
  { signatory, reason }: { readonly signatory: string; readonly reason: string },
  archive: Archive,
  speaker: Speaker,
): Promise<ExitCode> {
  keyPath();
  const { certificate } = await openKeys('', new Date());
  const workshop = /^CN=(.+)$/m.exec(certificate.subject)?.[1] ?? '';
  const notice = await changeKey({
    archive,
    keyFolder: defaultKeyFolder(),
    passphrase: defaultPassphrase(),
    workshop,
    signatory,
    reason,
    changedAt: new Date(),
  });
  const { before, after } = notice;
  speaker.result(
    { changed: true, before: before.certificateSha256, after: after.certificateSha256 },
    `signed by the new key from now on\nbefore ${before.certificateSha256}\nafter  ${after.certificateSha256}`,
  );
  return EXIT.done;
}
