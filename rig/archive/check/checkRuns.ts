import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import type { z } from 'zod';
import { benchRecord } from '../../../analysis/records/benchRecord.ts';
import { pumpRecord } from '../../../analysis/records/pumpRecord.ts';
import { holdExclusion, mark, type RunRecord, runClosing, runRecord } from '../../../analysis/records/runRecord.ts';
import { stripSheet } from '../../../analysis/records/stripSheet.ts';
import { messageOf } from '../../errors.ts';
import { readJsonLines } from '../jsonLines.ts';
import { measureFile } from '../measureFile.ts';
import { readRecordFile } from '../recordFile.ts';
import { journalFileName, RUN_FILES } from '../runFiles.ts';
import { RUN_ID } from '../runStore.ts';
import { noteStray } from './checkStrays.ts';
import type { Findings } from './flaw.ts';

const KNOWN_NAMES: ReadonlySet<string> = new Set([
  ...Object.values(RUN_FILES),
  ...['journal.log', 'journal.csv', 'journal.tail', 'marks.tail', `${RUN_FILES.lock}-journal`],
]);

/** Checks every run: its files against its closing, and the records in it against the archive's own of that version. */
export function checkRuns(directory: string, findings: Findings): void {
  const folder = join(directory, 'runs');
  if (!existsSync(folder)) return;
  for (const name of readdirSync(folder).sort()) {
    if (RUN_ID.test(name)) checkRun(directory, name, findings);
    else noteStray(join(folder, name), findings);
  }
}

function checkRun(directory: string, id: string, findings: Findings): void {
  const folder = join(directory, 'runs', id);
  const names = readdirSync(folder);
  for (const name of names) if (!KNOWN_NAMES.has(name)) noteStray(join(folder, name), findings);
  const run = readOrSay(() => readRecordFile(runRecord, join(folder, RUN_FILES.run)), folder, findings);
  if (!names.includes(RUN_FILES.closing)) {
    findings.note(folder, 'is not sealed: it is being recorded, or was cut off and is sealed at the next start');
    return;
  }
  checkSealed(folder, id, run, findings);
  if (run === null) return;
  checkSameRecord(directory, 'pumps', pumpRecord, run.pump, folder, findings);
  checkSameRecord(directory, 'benches', benchRecord, run.bench, folder, findings);
  if (run.stripSheet !== null) checkSameRecord(directory, 'strips', stripSheet, run.stripSheet, folder, findings);
}

function checkSealed(folder: string, id: string, run: RunRecord | null, findings: Findings): void {
  const closingPath = join(folder, RUN_FILES.closing);
  const closing = readOrSay(() => readRecordFile(runClosing, closingPath), closingPath, findings);
  if (closing === null) return;
  if (closing.runId !== id) findings.wrong(closingPath, `belongs to run ${closing.runId}`);
  if (run !== null && run.id !== id) findings.wrong(join(folder, RUN_FILES.run), `belongs to run ${run.id}`);
  const journalPath = join(folder, run === null ? 'journal.log' : journalFileName(run.source));
  checkHash(join(folder, RUN_FILES.run), closing.sha256.run, findings);
  checkHash(join(folder, RUN_FILES.marks), closing.sha256.marks, findings);
  const journal = checkHash(journalPath, closing.sha256.journal, findings);
  if (journal !== null && (journal.lineCount !== closing.lineCount || journal.byteLength !== closing.byteLength)) {
    const { lineCount, byteLength } = journal;
    const held = `the journal holds ${lineCount} lines, ${byteLength} bytes`;
    findings.wrong(closingPath, `it counts ${closing.lineCount} lines, ${closing.byteLength} bytes; ${held}`);
  }
  for (const [name, schema] of [
    [RUN_FILES.marks, mark],
    [RUN_FILES.exclusions, holdExclusion],
  ] as const) {
    const path = join(folder, name);
    if (existsSync(path)) readOrSay(() => readJsonLines(schema, path), path, findings);
  }
}

function checkHash(path: string, expected: string, findings: Findings): ReturnType<typeof measureFile> | null {
  if (!existsSync(path)) {
    findings.wrong(path, 'it is missing');
    return null;
  }
  findings.filesRead += 1;
  const measure = measureFile(path);
  if (measure.sha256 === expected) return measure;
  findings.wrong(path, `expected SHA-256 ${expected}, got ${measure.sha256}`);
  return null;
}

/** A run carries its records whole; where the archive has that version too, it must say the same. */
function checkSameRecord<Stored extends { readonly id: string; readonly version: number }>(
  directory: string,
  kind: 'pumps' | 'benches' | 'strips',
  schema: z.ZodType<Stored>,
  carried: Stored,
  folder: string,
  findings: Findings,
): void {
  const path = join(directory, kind, carried.id, `${carried.version}.json`);
  if (!existsSync(path)) {
    findings.note(
      folder,
      `rests on ${kind}/${carried.id}/${carried.version}.json, which is not here; the run carries it`,
    );
    return;
  }
  try {
    if (isDeepStrictEqual(readRecordFile(schema, path), carried)) return;
    findings.wrong(
      path,
      `is not what it was when it was used: run ${folder.slice(-15)} carries another record of that version`,
    );
  } catch {
    // Said where the records are checked.
  }
}

function readOrSay<Value>(read: () => Value, path: string, findings: Findings): Value | null {
  try {
    return read();
  } catch (error) {
    findings.wrong(path, messageOf(error));
    return null;
  }
}
