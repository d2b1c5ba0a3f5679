import { BenchError } from '../errors.ts';

/** The key folder cannot be used, or others may read the key. */
export class KeyError extends BenchError {
  override readonly code = 'KEY';

  constructor(
    readonly path: string,
    why: string,
    options?: ErrorOptions,
  ) {
    super(`key file ${path}: ${why}`, options);
  }
}

/** A file that was to be verified is not there or cannot be read. */
export class CertificateFileError extends BenchError {
  override readonly code = 'CERTIFICATE_FILE';

  constructor(
    readonly path: string,
    why: string,
    options?: ErrorOptions,
  ) {
    super(`${path}: ${why}`, options);
  }
}
