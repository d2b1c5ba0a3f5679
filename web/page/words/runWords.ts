import type { RunListEntry } from '../../api.ts';

export const ENDING_WORDS: Readonly<Record<RunListEntry['ending'], string>> = {
  open: 'being recorded',
  completed: 'completed',
  stopped: 'stopped',
  failed: 'failed',
  recovered: 'cut off, recovered to its last whole line',
};
