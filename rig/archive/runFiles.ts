import type { RunRecord } from '../../analysis/records/runRecord.ts';

/** Names of the files in a run's folder. */
export const RUN_FILES = {
  run: 'run.json',
  marks: 'marks.jsonl',
  closing: 'closing.json',
  /** Caches, rebuilt from the files above. */
  result: 'result.json',
  lock: 'open.lock',
} as const;

/** The file that holds what came in: a recorded journal, or an imported file as it was. */
export function journalFileName(source: RunRecord['source']): 'journal.log' | 'journal.csv' {
  return source.kind === 'port' ? 'journal.log' : 'journal.csv';
}
