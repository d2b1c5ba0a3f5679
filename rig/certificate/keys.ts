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
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { codeOf, messageOf } from '../errors.ts';
import { KeyError } from './certificateErrors.ts';

/** The workshop's own key. */
export const WORKSHOP_KEY_FILE = 'signing.pem';
/** Signs specimens from the practice bench and nothing else: the workshop's key never stands under one. */
export const SPECIMEN_KEY_FILE = 'specimen.pem';
/** A key that is to follow the workshop's, until the change is filed. */
export const NEXT_KEY_FILE = 'signing.next.pem';
export type KeyFile = typeof WORKSHOP_KEY_FILE | typeof SPECIMEN_KEY_FILE | typeof NEXT_KEY_FILE;
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

/** Whom a certificate names, in one line. */
export function subjectOf(certificate: X509Certificate): string {
  return certificate.subject.replaceAll('\n', ', ');
}

/**
 * Opens the workshop's key; makes it at first use. It is one file, so that key and certificate are never apart.
 *
 * @param workshop - name in the certificate, counted when the key is made and not later [-]
 * @param madeOn - today, counted when the key is made [-]
 * @param folder - key folder, made if absent (0700) [-]
 * @param keyFile - which key: the workshop's, or that of specimens [-]
 * @param passphrase - under which the key is kept; null: it lies open to its owner [-]
 * @throws KeyError if the folder cannot be used, the file is no key, or others may read it
 */
export async function openKeys(
  workshop: string,
  madeOn: Date,
  folder = defaultKeyFolder(),
  keyFile: KeyFile = WORKSHOP_KEY_FILE,
  passphrase = defaultPassphrase(),
): Promise<WorkshopKeys> {
  const path = join(folder, keyFile);
  if (!existsSync(path)) {
    // What makes a certificate takes a while to load, and is needed once in a workshop's life.
    const { makeWorkshopCertificate } = await import('./workshopCertificate.ts');
    const pem = await makeWorkshopCertificate(workshop, madeOn);
    placeKeyFile(folder, path, passphrase === null ? pem : underPassphrase(pem, passphrase));
  }
  return readKeyFile(path, passphrase);
}

/** The passphrase of the environment, SLIPWRIGHT_KEY_PASSPHRASE; null: none. */
export function defaultPassphrase(environment: NodeJS.ProcessEnv = process.env): string | null {
  const named = environment.SLIPWRIGHT_KEY_PASSPHRASE ?? '';
  return named === '' ? null : named;
}

/** The same key and certificate, the key encrypted: PKCS #8 by PBES2 (RFC 8018), AES-256. */
function underPassphrase(pem: string, passphrase: string): string {
  const key = createPrivateKey(pem).export({ type: 'pkcs8', format: 'pem', cipher: 'aes-256-cbc', passphrase });
  return `${key}${(pem.match(PEM_CERTIFICATE) ?? []).join('\n')}\n`;
}

/**
 * Puts a key that lies open under a passphrase.
 *
 * @param passphrase - asked for from then on [-]
 * @param folder - key folder [-]
 * @param keyFile - which key [-]
 * @throws KeyError if there is no such key, it is under a passphrase, or the file cannot be written
 */
export function protectKey(
  passphrase: string,
  folder = defaultKeyFolder(),
  keyFile: KeyFile = WORKSHOP_KEY_FILE,
): void {
  const path = join(folder, keyFile);
  readKeyFile(path, null);
  const temporary = `${path}.${randomUUID()}.part`;
  try {
    writeSynced(temporary, underPassphrase(readFileSync(path, 'utf8'), passphrase));
    renameSync(temporary, path);
  } catch (cause) {
    rmSync(temporary, { force: true });
    throw new KeyError(path, `cannot be written (${messageOf(cause)})`, { cause });
  }
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

function readKeyFile(path: string, passphrase: string | null): WorkshopKeys {
  if (!existsSync(path)) throw new KeyError(path, 'is not there; it is made when the first certificate is filed');
  refuseReadableByOthers(path);
  const pem = readFileSync(path, 'utf8');
  if (pem.includes('BEGIN ENCRYPTED PRIVATE KEY') && passphrase === null) {
    throw new KeyError(path, 'is under a passphrase: set SLIPWRIGHT_KEY_PASSPHRASE');
  }
  try {
    const privateKey = createPrivateKey(passphrase === null ? pem : { key: pem, passphrase });
    const keys = { privateKey, certificate: new X509Certificate((pem.match(PEM_CERTIFICATE) ?? [''])[0] ?? '') };
    if (!keys.certificate.checkPrivateKey(keys.privateKey))
      throw new Error('key and certificate do not belong together');
    return keys;
  } catch (cause) {
    const under = pem.includes('ENCRYPTED') ? ', and the passphrase that it is under' : '';
    throw new KeyError(path, `expected a private key and its certificate in PEM${under} (${messageOf(cause)})`, {
      cause,
    });
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
