import { existsSync, readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { messageOf } from '../errors.ts';
import type { CertificateCheck } from './certificateCheck.ts';
import { CertificateFileError } from './certificateErrors.ts';
import { CertificateLedger } from './certificateLedger.ts';
import { knownFingerprints } from './keys.ts';
import { verifyPresented, withEnding } from './verifyPresented.ts';

function readFile(path: string): Buffer {
  try {
    return readFileSync(path);
  } catch (cause) {
    throw new CertificateFileError(path, `cannot be read (${messageOf(cause)})`, { cause });
  }
}

/** Verifies files one after another; what their folders know is read once. */
export class FileVerifier {
  private readonly ledgers = new Map<string, CertificateLedger>();

  /**
   * @param knownKeys - SHA-256 of the certificates known here; this machine's key folder if left out [-]
   * @param archiveFolder - folder of an archive's certificates, asked besides that in which a file lies; null: none [-]
   */
  constructor(
    private readonly knownKeys: ReadonlySet<string> = knownFingerprints(),
    private readonly archiveFolder: string | null = null,
  ) {}

  /**
   * Verifies a certificate from its file.
   *
   * @param path - of a .pdf or a .json file [-]
   * @returns what was found [-]
   * @throws CertificateFileError if the file cannot be read
   */
  async verify(path: string): Promise<CertificateCheck> {
    const beside = (ending: 'json' | 'jws'): Buffer | null => {
      const other = withEnding(path, ending);
      return other !== path && existsSync(other) ? readFile(other) : null;
    };
    const folders = [dirname(resolve(path)), ...(this.archiveFolder === null ? [] : [resolve(this.archiveFolder)])];
    const ledgers = [...new Set(folders)].filter(existsSync).map((folder) => this.ledgerOf(folder));
    return verifyPresented({ path, bytes: readFile(path), beside }, { knownKeys: this.knownKeys, ledgers });
  }

  private ledgerOf(folder: string): CertificateLedger {
    const ledger = this.ledgers.get(folder) ?? new CertificateLedger(folder);
    this.ledgers.set(folder, ledger);
    return ledger;
  }
}

/** As {@link FileVerifier}, for a single file. */
export function verifyCertificate(path: string, knownKeys?: ReadonlySet<string>): Promise<CertificateCheck> {
  return new FileVerifier(knownKeys).verify(path);
}
