import { BenchError } from '../errors.ts';

/** The journal cannot be written or read (disk full, a file that is not ours). */
export class JournalError extends BenchError {
  override readonly code = 'JOURNAL';

  constructor(
    readonly path: string,
    why: string,
    options?: ErrorOptions,
  ) {
    super(`journal ${path}: ${why}`, options);
  }
}

/** A run was asked for while one is open, or none is. */
export class NoRunError extends BenchError {
  override readonly code = 'NO_RUN';
}

/** What the recorder's process refused or could not do: the code is that of the error over there. */
export class RecorderError extends BenchError {
  constructor(
    override readonly code: string,
    message: string,
  ) {
    super(message);
  }
}
