import { z } from 'zod';
import { recordId, sha256Hex, utcInstant } from '../../../analysis/records/fields.ts';

/** history.json of an export: what it holds. */
export const historyManifest = z.strictObject({
  format: z.literal('slipwright.history/1'),
  pumpId: recordId,
  exportedAtUtc: utcInstant,
  programVersion: z.string().min(1),
  runs: z.array(z.string()),
  certificates: z.array(z.string()),
});
export type HistoryManifest = z.infer<typeof historyManifest>;

/** imports/<sha256>.json: what came in from another archive, and from which file. Certificates of another chain are known by it. */
export const importRecord = z.strictObject({
  format: z.literal('slipwright.import/1'),
  importedAtUtc: utcInstant,
  fileName: z.string().min(1),
  sha256: sha256Hex,
  history: historyManifest,
});
export type ImportRecord = z.infer<typeof importRecord>;

/** Files of an export that are made for whoever opens it, and are not taken over. */
export const HISTORY_FILES = {
  manifest: 'history.json',
  page: 'index.html',
  readme: 'README.txt',
  sums: 'SHA256SUMS',
} as const;
export const READINGS_FOLDER = 'readings';

/** Every name that may stand in an export: as an archive has them, and nothing else. */
export const HISTORY_NAME = new RegExp(
  [
    '^(?:history\\.json|index\\.html|README\\.txt|SHA256SUMS',
    '|(?:pumps|strips|benches)/[a-z0-9][a-z0-9-]{0,63}/(?:[1-9]\\d*\\.json|SHA256SUMS)',
    '|days/[a-z0-9][a-z0-9-]{0,63}\\.jsonl',
    '|runs/\\d{4}-\\d{2}-\\d{2}-\\d{4,}/(?:run\\.json|journal\\.(?:log|csv|tail)|marks\\.(?:jsonl|tail)|closing\\.json|exclusions\\.jsonl)',
    '|readings/\\d{4}-\\d{2}-\\d{2}-\\d{4,}\\.csv(?:-metadata\\.json)?',
    '|certificates/(?:\\d{4}-\\d{4,6}(?:\\.withdrawn)?|key-\\d{4})\\.(?:json|jws|pdf)',
    '|attachments/[0-9a-f]{64})$',
  ].join(''),
);
