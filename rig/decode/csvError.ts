import { BenchError } from '../errors.ts';

/** A CSV file that cannot be taken as evidence; names line and column. */
export class CsvError extends BenchError {
  override readonly code = 'CSV';
}
