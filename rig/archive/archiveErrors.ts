import { BenchError } from '../errors.ts';

/** The archive folder cannot be made, read or written. */
export class ArchiveError extends BenchError {
  override readonly code = 'ARCHIVE';

  constructor(
    readonly path: string,
    why: string,
    options?: ErrorOptions,
  ) {
    super(`archive ${path}: ${why}`, options);
  }
}

/** The index is no database any more; the files are not touched by that. */
export class DamagedIndexError extends ArchiveError {}

/** A record that is missing or does not hold what its format asks for. */
export class RecordError extends BenchError {
  override readonly code = 'RECORD';

  constructor(
    /** The file, or whatever else the record came from. */
    readonly source: string,
    why: string,
    options?: ErrorOptions,
  ) {
    super(`${source}: ${why}`, options);
  }
}

/** A run that is missing, or not sealed yet. */
export class RunError extends BenchError {
  override readonly code = 'RUN';

  constructor(
    readonly runId: string,
    why: string,
    options?: ErrorOptions,
  ) {
    super(`run ${runId}: ${why}`, options);
  }
}

/** A sealed file is not what it was when it was sealed. */
export class ChangedError extends BenchError {
  override readonly code = 'CHANGED';

  constructor(
    readonly file: string,
    why: string,
  ) {
    super(`${file} is not as it was sealed: ${why}`);
  }
}
