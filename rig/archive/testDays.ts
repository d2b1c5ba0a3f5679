import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { recordId } from '../../analysis/records/fields.ts';
import { type TestDayEntry, testDayEntry } from '../../analysis/records/testDayEntry.ts';
import { readJsonLines } from './jsonLines.ts';
import { parseRecord } from './recordFile.ts';
import { appendLine } from './wholeFile.ts';

/** What people said on the test days of each pump: `<folder>/<pump>.jsonl`, added to and never rewritten. */
export class TestDays {
  constructor(private readonly folder: string) {}

  /** Oldest first. @throws RecordError naming the line that is none */
  read(pumpId: string): readonly TestDayEntry[] {
    const path = this.pathOf(pumpId);
    return existsSync(path) ? readJsonLines(testDayEntry, path) : [];
  }

  /** @returns all entries, with the new one. @throws RecordError naming what is wrong with it */
  add(pumpId: string, entry: TestDayEntry): readonly TestDayEntry[] {
    const path = this.pathOf(pumpId);
    const before = this.read(pumpId);
    const added = parseRecord(testDayEntry, entry, 'the test day');
    appendLine(path, JSON.stringify(added));
    return [...before, added];
  }

  private pathOf(pumpId: string): string {
    return join(this.folder, `${parseRecord(recordId, pumpId, 'the pump')}.jsonl`);
  }
}
