import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { Archive } from '../archive/openArchive.ts';

const SAMPLE_PUMPS = ['dredger-feed-pump', 'dredger-return-pump'] as const;

function sample(path: string): { readonly record: unknown; readonly file: string } {
  const file = fileURLToPath(new URL(`../../samples/${path}`, import.meta.url));
  return { record: JSON.parse(readFileSync(file, 'utf8')), file };
}

/** Puts the invented sample pumps into an archive that has none of their name, and the practice bench's record. */
export function installSampleRecords(archive: Archive): BenchRecord {
  const known = new Set(archive.listPumps().map(({ id }) => id));
  for (const id of SAMPLE_PUMPS) {
    if (known.has(id)) continue;
    const { record, file } = sample(`pumps/${id}.json`);
    archive.savePump(record, file);
  }
  const { record, file } = sample('benches/practice-bench.json');
  return archive.saveBench(record, file);
}
