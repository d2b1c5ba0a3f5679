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
    readonly why: string,
    options?: ErrorOptions,
  ) {
    super(`${path}: ${why}`, options);
  }
}

/** There is no such certificate in this archive. */
export class UnknownCertificateError extends BenchError {
  override readonly code = 'UNKNOWN_CERTIFICATE';

  constructor(readonly number: string) {
    super(`no certificate has the number ${number}`);
  }
}

/** The certificate does not stand any more: it cannot be replaced or withdrawn again. */
export class CertificateStandingError extends BenchError {
  override readonly code = 'CERTIFICATE_STANDING';

  constructor(
    readonly number: string,
    why: string,
  ) {
    super(`certificate ${number}: ${why}`);
  }
}
