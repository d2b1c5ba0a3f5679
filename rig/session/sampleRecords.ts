import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { Archive } from '../archive/openArchive.ts';
import { PROJECT_FOLDER } from '../projectFolder.ts';

const SAMPLE_PUMPS = ['dredger-feed-pump', 'dredger-return-pump'] as const;

function sample(path: string): { readonly record: unknown; readonly file: string } {
  const file = join(PROJECT_FOLDER, 'samples', path);
  return { record: JSON.parse(readFileSync(file, 'utf8')), file };
}

/** Puts the invented sample pumps into an archive that has none of their name, with their strip sheets, and the practice bench's record. */
export function installSampleRecords(archive: Archive): BenchRecord {
  const pumps = new Set(archive.listPumps().map(({ id }) => id));
  const stripped = new Set(archive.listStrips().map(({ pumpId }) => pumpId));
  for (const id of SAMPLE_PUMPS) {
    if (!pumps.has(id)) {
      const { record, file } = sample(`pumps/${id}.json`);
      archive.savePump(record, file);
    }
    if (!stripped.has(id)) {
      const { record, file } = sample(`strips/${id}.json`);
      archive.saveStrip(record, file);
    }
  }
  const { record, file } = sample('benches/practice-bench.json');
  return archive.saveBench(record, file);
}
