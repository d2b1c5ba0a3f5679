import { BenchError } from '../errors.ts';

/** This machine gives no pseudo-terminal: the practice bench must then run in process. */
export class NoPtyError extends BenchError {
  override readonly code = 'NO_PTY';

  constructor(why: string, options?: ErrorOptions) {
    super(`no pseudo-terminal for the practice bench: ${why}`, options);
  }
}
