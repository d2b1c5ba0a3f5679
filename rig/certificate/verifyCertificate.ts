import { existsSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import type { CertificateCheck, ReadCertificate } from './certificateCheck.ts';
import { CertificateLedger } from './certificateLedger.ts';
import { checkAgainst } from './checkAgainst.ts';
import { FilesRead } from './filesRead.ts';
import { knownFingerprints } from './keys.ts';
import { readCertificateFile } from './readCertificateFile.ts';
import { readCertificateFiles } from './readCertificateFiles.ts';
import { withEnding } from './readPresented.ts';
import { tellTwins } from './tellTwins.ts';

/** Verifies files; what their folders know is read once. */
export class FileVerifier {
  private readonly ledgers = new Map<string, CertificateLedger>();
  private readonly files = new FilesRead();

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
  verify(path: string): CertificateCheck {
    const read = readCertificateFile(path);
    this.note(path, read);
    return this.check(path, read);
  }

  /**
   * Verifies many, by threads beside this one where that is sooner done.
   *
   * @param paths - of .pdf and .json files [-]
   * @param progress - told now and then how many were read [-]
   * @returns what was found, in their order [-]
   * @throws CertificateFileError if a file cannot be read
   */
  async verifyAll(
    paths: readonly string[],
    progress: (count: number) => void = () => undefined,
  ): Promise<readonly CertificateCheck[]> {
    const reads = await readCertificateFiles(paths, progress);
    const read = (index: number): ReadCertificate => {
      const found = reads[index];
      if (found === undefined) throw new RangeError('fewer files were read than were named');
      return found;
    };
    // What each says is known before any is set against the others.
    for (const [index, path] of paths.entries()) this.note(path, read(index));
    return tellTwins(paths.map((path, index) => this.check(path, read(index))));
  }

  /** SHA-256 of a file, which is read if it was not; null: there is none. */
  sha256Of(path: string): string | null {
    return this.files.read(resolve(path))?.sha256 ?? null;
  }

  private check(path: string, read: ReadCertificate): CertificateCheck {
    const folders = [dirname(resolve(path)), ...(this.archiveFolder === null ? [] : [resolve(this.archiveFolder)])];
    const ledgers = [...new Set(folders)].flatMap((folder) => this.ledgerOf(folder) ?? []);
    return checkAgainst(read, { knownKeys: this.knownKeys, ledgers });
  }

  private note(path: string, read: ReadCertificate): void {
    if (!('whole' in read)) return;
    const { whole, place, files } = read;
    if (files.pdf !== null) this.files.note(resolve(path), { sha256: files.pdf, data: null });
    const data = { number: whole.number, replaces: whole.replaces, ...place };
    if (files.json !== null) this.files.note(resolve(withEnding(path, 'json')), { sha256: files.json, data });
  }

  private ledgerOf(folder: string): CertificateLedger | null {
    const known = this.ledgers.get(folder);
    if (known !== undefined) return known;
    if (!existsSync(folder)) return null;
    const ledger = new CertificateLedger(folder, { files: this.files });
    this.ledgers.set(folder, ledger);
    return ledger;
  }
}

/** As {@link FileVerifier}, for a single file. */
export function verifyCertificate(path: string, knownKeys?: ReadonlySet<string>): CertificateCheck {
  return new FileVerifier(knownKeys).verify(path);
}
