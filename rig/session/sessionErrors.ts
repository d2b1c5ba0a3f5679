import { BenchError } from '../errors.ts';

/** What is asked of the bench cannot be done now; `code` says why. */
export class SessionError extends BenchError {
  constructor(
    override readonly code:
      | 'RUN_OPEN'
      | 'NO_RUN'
      | 'LINE_NOT_OPEN'
      | 'GEOMETRY'
      | 'MUST_NOT_RUN_DRY'
      | 'UNKNOWN_CHANNEL',
    message: string,
    options?: ErrorOptions,
  ) {
    super(message, options);
  }
}
