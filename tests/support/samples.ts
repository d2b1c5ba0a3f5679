import { cpSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type BenchRecord, benchRecord } from '../../analysis/records/benchRecord.ts';
import { type PumpRecord, pumpRecord } from '../../analysis/records/pumpRecord.ts';
import { type StripSheet, stripSheet } from '../../analysis/records/stripSheet.ts';

function readSample(path: string): unknown {
  return JSON.parse(readFileSync(new URL(`../../samples/${path}`, import.meta.url), 'utf8'));
}

export function samplePump(id: 'dredger-feed-pump' | 'dredger-return-pump'): PumpRecord {
  return pumpRecord.parse(readSample(`pumps/${id}.json`));
}

export function sampleStrip(id: 'dredger-feed-pump' | 'dredger-return-pump'): StripSheet {
  return stripSheet.parse(readSample(`strips/${id}.json`));
}

export function sampleBench(): BenchRecord {
  return benchRecord.parse(readSample('benches/practice-bench.json'));
}

const RUNS = fileURLToPath(new URL('../../samples/runs', import.meta.url));

/** Every run that samples/runs holds, oldest first. */
export function sampleRunIds(): readonly string[] {
  return readdirSync(RUNS).sort();
}

/** Puts sample runs into the folder of an archive, as their folders stand. */
export function copySampleRuns(archiveFolder: string, ids: readonly string[]): void {
  for (const id of ids) cpSync(join(RUNS, id), join(archiveFolder, 'runs', id), { recursive: true });
}
