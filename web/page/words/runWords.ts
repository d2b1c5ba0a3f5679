import type { RunKind } from '../../../analysis/records/runRecord.ts';
import type { RunListEntry } from '../../api.ts';

export const RUN_KIND_WORDS: Readonly<Record<RunKind, string>> = {
  delivery: 'delivery run',
  dryLift: 'dry-lift run',
};

export const ENDING_WORDS: Readonly<Record<RunListEntry['ending'], string>> = {
  open: 'being recorded',
  completed: 'completed',
  stopped: 'stopped',
  failed: 'failed',
  recovered: 'cut off, recovered to its last whole line',
};
