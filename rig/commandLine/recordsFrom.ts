import { existsSync } from 'node:fs';
import { z } from 'zod';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import { oilRecord } from '../../analysis/records/oilRecord.ts';
import type { PumpRecord } from '../../analysis/records/pumpRecord.ts';
import { setUp } from '../../analysis/records/runRecord.ts';
import type { Archive } from '../archive/openArchive.ts';
import { readJsonFile, readRecordFile } from '../archive/recordFile.ts';

/** Oil and set-up of a run in one file: what is neither of the pump nor of the bench. */
const conditions = z.strictObject({ oil: oilRecord, setUp });
export type Conditions = z.infer<typeof conditions>;

/** A pump named by its id in the archive, or by a file, which is then filed. */
export function pumpFrom(archive: Archive, idOrFile: string): PumpRecord {
  return existsSync(idOrFile) ? archive.savePump(readJsonFile(idOrFile), idOrFile) : archive.latestPump(idOrFile);
}

/** A bench named by its id in the archive, or by a file, which is then filed. */
export function benchFrom(archive: Archive, idOrFile: string): BenchRecord {
  return existsSync(idOrFile) ? archive.saveBench(readJsonFile(idOrFile), idOrFile) : archive.latestBench(idOrFile);
}

export function conditionsFrom(file: string): Conditions {
  return readRecordFile(conditions, file);
}
