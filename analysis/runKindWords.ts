import type { RunKind } from './records/runRecord.ts';

/** A run's kind as page and certificate call it. */
export const RUN_KIND_WORDS: Readonly<Record<RunKind, string>> = {
  delivery: 'delivery run',
  dryLift: 'dry-lift run',
  blanked: 'blanked dry start',
  suction: 'suction run',
  relief: 'relief-valve run',
};
