import { BenchError } from '../errors.ts';

/** The practice bench's own process did not start, or is gone. */
export class PracticeBenchError extends BenchError {
  override readonly code = 'PRACTICE_BENCH_GONE';
}
