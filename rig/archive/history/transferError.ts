import { BenchError } from '../../errors.ts';

/** A pump history that is not taken into an archive. */
export class TransferError extends BenchError {
  override readonly code = 'TRANSFER';

  constructor(
    readonly path: string,
    why: string,
    options?: ErrorOptions,
  ) {
    super(`${path}: ${why}`, options);
  }
}
