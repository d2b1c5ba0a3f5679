import { readFileSync } from 'node:fs';
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
