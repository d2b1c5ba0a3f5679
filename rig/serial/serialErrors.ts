import { BenchError } from '../errors.ts';

/** A serial port that does not exist, is busy or may not be opened. */
export class PortError extends BenchError {
  override readonly code = 'PORT';

  constructor(
    readonly path: string,
    why: string,
    options?: ErrorOptions,
  ) {
    super(`port ${path}: ${why}`, options);
  }
}

/** Something was to be written to a port that is not known to lead to a practice bench. */
export class PracticeOnlyError extends BenchError {
  override readonly code = 'NOT_PRACTICE';

  constructor(
    readonly path: string,
    why: string,
  ) {
    super(`nothing was sent to ${path}: ${why}; commands go to a practice bench only`);
  }
}
