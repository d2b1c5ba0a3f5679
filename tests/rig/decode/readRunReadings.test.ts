import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { readRunReadings } from '../../../rig/decode/readRunReadings.ts';
import { formatJournalRecord } from '../../../rig/journal/journalRecord.ts';
import { newRun, sourceFile, temporaryArchive } from '../archive/newRun.ts';
import { line, sentence } from './sentence.ts';

it('reads a recorded run from its journal, with the barometer of the run', () => {
  const { run, folder } = temporaryArchive().createRun(newRun());
  const journal = join(folder, 'journal.log');
  writeFileSync(journal, formatJournalRecord(line(sentence('1,0,1,2,3,600,40'))));
  const { readings, census } = readRunReadings(folder, run);
  expect(readings.channels.deliveryPressure?.values[0]).toBe(300_000); // 2 bar gauge over 1 bar
  expect(census.readingCount).toBe(1);
  rmSync(journal);
  expect(() => readRunReadings(folder, run)).toThrowError(
    expect.objectContaining({ code: 'JOURNAL', message: expect.stringContaining(journal) }),
  );
});

it('reads an imported run from the file that was imported', async () => {
  const { source: _, ...rest } = newRun();
  const csv = Buffer.from('elapsed [s],deliveryPressure [bar(g)]\n10,2\n11,3\n');
  const { sealed } = await temporaryArchive().importRun('old.csv', sourceFile(csv), () => rest);
  const { run, folder } = sealed;
  const { readings, census, isPractice } = readRunReadings(folder, run);
  expect([...readings.elapsedS]).toEqual([0, 1]);
  expect([...(readings.channels.deliveryPressure?.values ?? [])]).toEqual([300_000, 400_000]); // barometer 1 bar
  expect(census).toMatchObject({ lineCount: 2, readingCount: 2 });
  expect(isPractice).toBe(false);
});
