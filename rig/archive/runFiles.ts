import type { RunRecord } from '../../analysis/records/runRecord.ts';

/** Names of the files in a run's folder. */
export const RUN_FILES = {
  run: 'run.json',
  marks: 'marks.jsonl',
  closing: 'closing.json',
  /** What a person took out of the fit, and why: added to after sealing. */
  exclusions: 'exclusions.jsonl',
  /** Caches, rebuilt from the files above. */
  result: 'result.json',
  drawn: 'drawn.json',
  lock: 'open.lock',
} as const;

/** The file that holds what came in: a recorded journal, or an imported file as it was. */
export function journalFileName(source: RunRecord['source']): 'journal.log' | 'journal.csv' {
  return source.kind === 'port' ? 'journal.log' : 'journal.csv';
}
