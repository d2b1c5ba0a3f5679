import { createPrivateKey, type KeyObject, randomUUID, X509Certificate } from 'node:crypto';
import {
  closeSync,
  existsSync,
  fsyncSync,
  linkSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { codeOf, messageOf } from '../errors.ts';
import { KeyError } from './certificateErrors.ts';
import { makeWorkshopCertificate } from './workshopCertificate.ts';

/** The workshop's own key. */
export const WORKSHOP_KEY_FILE = 'signing.pem';
/** Signs specimens from the practice bench and nothing else: the workshop's key never stands under one. */
export const SPECIMEN_KEY_FILE = 'specimen.pem';
export type KeyFile = typeof WORKSHOP_KEY_FILE | typeof SPECIMEN_KEY_FILE;
const PEM_CERTIFICATE = /-----BEGIN CERTIFICATE-----[\s\S]+?-----END CERTIFICATE-----/g;

/** The workshop's key, and the certificate that names it. */
export type WorkshopKeys = {
  readonly privateKey: KeyObject;
  readonly certificate: X509Certificate;
};

/** Where keys live: SLIPWRIGHT_KEYS, else a folder of the user's own. Never inside an archive. */
export function defaultKeyFolder(environment: NodeJS.ProcessEnv = process.env): string {
  const named = environment.SLIPWRIGHT_KEYS ?? '';
  // Set but empty is not set: a key must not land wherever the program was started.
  return named === '' ? join(homedir(), '.config', 'slipwright', 'keys') : named;
}

/** SHA-256 over a certificate's bytes, in lower-case hexadecimal. */
export function fingerprintOf(certificate: X509Certificate): string {
  return certificate.fingerprint256.replaceAll(':', '').toLowerCase();
}

/**
 * Opens the workshop's key; makes it at first use. It is one file, so that key and certificate are never apart.
 *
 * @param workshop - name in the certificate, counted when the key is made and not later [-]
 * @param madeOn - today, counted when the key is made [-]
 * @param folder - key folder, made if absent (0700) [-]
 * @param keyFile - which key: the workshop's, or that of specimens [-]
 * @throws KeyError if the folder cannot be used, the file is no key, or others may read it
 */
export async function openKeys(
  workshop: string,
  madeOn: Date,
  folder = defaultKeyFolder(),
  keyFile: KeyFile = WORKSHOP_KEY_FILE,
): Promise<WorkshopKeys> {
  const path = join(folder, keyFile);
  if (!existsSync(path)) {
    const pem = await makeWorkshopCertificate(workshop, madeOn);
    placeKeyFile(folder, path, pem);
  }
  return readKeyFile(path);
}

/** Of two programs that make the first key at once, one wins and both use its key: a link is refused where the name is taken. */
function placeKeyFile(folder: string, path: string, pem: string): void {
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    const temporary = `${path}.${randomUUID()}.part`;
    try {
      writeSynced(temporary, pem);
      linkSync(temporary, path);
    } finally {
      rmSync(temporary, { force: true });
    }
  } catch (cause) {
    if (codeOf(cause) === 'EEXIST' && existsSync(path)) return;
    throw new KeyError(path, `cannot be made (${messageOf(cause)})`, { cause });
  }
}

function writeSynced(path: string, pem: string): void {
  const file = openSync(path, 'wx', 0o600);
  try {
    writeFileSync(file, pem);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

function readKeyFile(path: string): WorkshopKeys {
  refuseReadableByOthers(path);
  try {
    const pem = readFileSync(path, 'utf8');
    const keys = { privateKey: createPrivateKey(pem), certificate: new X509Certificate(pem) };
    if (!keys.certificate.checkPrivateKey(keys.privateKey))
      throw new Error('key and certificate do not belong together');
    return keys;
  } catch (cause) {
    throw new KeyError(path, `expected a private key and its certificate in PEM (${messageOf(cause)})`, { cause });
  }
}

function refuseReadableByOthers(path: string): void {
  // Windows keeps no such bits.
  if (process.platform === 'win32') return;
  const mode = statSync(path).mode & 0o777;
  if ((mode & 0o077) === 0) return;
  throw new KeyError(path, `mode is ${mode.toString(8).padStart(4, '0')}, so others may use it; expected 0600`);
}

/**
 * Fingerprints of the keys that this machine knows: its own, and those of other workshops whose certificates were put
 * beside it as .pem files. Nothing is made.
 */
export function knownFingerprints(folder = defaultKeyFolder()): ReadonlySet<string> {
  if (!existsSync(folder)) return new Set();
  const names = readdirSync(folder).filter((name) => name.endsWith('.pem'));
  return new Set(names.flatMap((name) => certificatesIn(join(folder, name)).map(fingerprintOf)));
}

/** A file that cannot be read vouches for nobody. */
function certificatesIn(path: string): readonly X509Certificate[] {
  try {
    const pems = readFileSync(path, 'utf8').match(PEM_CERTIFICATE) ?? [];
    return pems.map((pem) => new X509Certificate(pem));
  } catch {
    return [];
  }
}
