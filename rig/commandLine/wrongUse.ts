import { BenchError } from '../errors.ts';

/** The command line was called wrongly. */
export class WrongUse extends BenchError {
  override readonly code = 'USE';
}
