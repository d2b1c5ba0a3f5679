import { fork } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readFileSync, symlinkSync, watch } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { expect, it, onTestFinished } from 'vitest';
import type { RunClosing } from '../../../analysis/records/runRecord.ts';
import { decodeJournal } from '../../../rig/decode/decodeJournal.ts';
import type { RecorderError } from '../../../rig/journal/journalErrors.ts';
import type { JournalState } from '../../../rig/journal/journalFile.ts';
import { parseJournalRecord } from '../../../rig/journal/journalRecord.ts';
import { type Recorder, startRecorder } from '../../../rig/journal/startRecorder.ts';
import type { PortStatus } from '../../../rig/serial/portReader.ts';
import type { ReceivedLine } from '../../../rig/serial/receivedLine.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { sampleBench } from '../../support/samples.ts';
import { newRun, temporaryArchive } from '../archive/newRun.ts';
import { sentence } from '../decode/sentence.ts';
import { Collected, TestBench } from '../serial/testPty.ts';

const { wire } = inventedBench();

function bench(): TestBench {
  const made = new TestBench();
  onTestFinished(() => made.dispose());
  return made;
}

async function start(): Promise<{
  recorder: Recorder;
  lines: Collected<ReceivedLine>;
  statuses: Collected<PortStatus>;
  journal: Collected<JournalState>;
  fatal: Collected<{ error: RecorderError; closing: RunClosing | null }>;
}> {
  const lines = new Collected<ReceivedLine>();
  const statuses = new Collected<PortStatus>();
  const journal = new Collected<JournalState>();
  const fatal = new Collected<{ error: RecorderError; closing: RunClosing | null }>();
  const recorder = await startRecorder({
    onLines: (batch) => batch.forEach(lines.add),
    onStatus: statuses.add,
    onJournal: journal.add,
    onFatal: (error, closing) => fatal.add({ error, closing }),
  });
  onTestFinished(() => recorder.close());
  return { recorder, lines, statuses, journal, fatal };
}

function reading(counter: number): string {
  return `${sentence(`${counter},${counter * 20_000},1,2,3,600,40`)}\r\n`;
}

/** Content of the journal's whole records, in order. */
function journalled(folder: string): readonly string[] {
  return readFileSync(join(folder, 'journal.log'), 'latin1')
    .split('\n')
    .slice(0, -1)
    .map((record) => {
      const line = parseJournalRecord(record);
      return line === null
        ? `not a record: ${record}`
        : `${line.bytes}${line.fault === null ? '' : ` (${line.fault})`}`;
    });
}

async function fileAppears(folder: string, name: string): Promise<void> {
  const watcher = watch(folder);
  while (!existsSync(join(folder, name))) await once(watcher, 'change');
  watcher.close();
}

it('records a run: every line in the journal before it is told, marks, closing with hashes that hold', async () => {
  const far = bench();
  const archive = temporaryArchive();
  const { recorder, lines, journal } = await start();
  await recorder.open({ path: far.path, baudRate: 115_200, wire, mustExist: true });
  far.say(reading(1)); // before the run: live only
  await lines.until((items) => items.length === 1);
  const { run, folder } = archive.createRun(newRun(far.path));
  await recorder.startRun(folder);
  await expect(recorder.startRun(folder)).rejects.toMatchObject({ code: 'NO_RUN' });
  expect(archive.sealInterrupted()).toEqual([]); // it is being recorded: its lock is held
  far.say(reading(2));
  far.say(reading(3));
  await lines.until((items) => items.length === 3);
  expect(journalled(folder)).toEqual([reading(2).trimEnd(), reading(3).trimEnd()]);
  await journal.until((states) => states.at(-1)?.lineCount === 2 && states.at(-1)?.oldestUnsyncedMs === 0);
  const mark = await recorder.mark('valve half open');
  const closing = await recorder.stopRun('completed', 'all steps done');
  expect(closing).toMatchObject({ runId: run.id, ending: 'completed', lineCount: 2 });
  const sealed = archive.readRun(run.id);
  expect(sealed.closing).toEqual(closing);
  expect(sealed.marks).toEqual([mark]);
  await expect(recorder.mark('too late')).rejects.toMatchObject({ code: 'NO_RUN' });
  await expect(recorder.stopRun('completed', 'again')).rejects.toMatchObject({ code: 'NO_RUN' });
  await expect(recorder.startRun(folder)).rejects.toMatchObject({ code: 'RUN' });
  await expect(recorder.command('speed 600')).rejects.toMatchObject({ code: 'NOT_PRACTICE' });
  expect(far.received).toBe('');
  await recorder.close();
  await recorder.close();
  await expect(recorder.mark('x')).rejects.toMatchObject({ code: 'RECORDER' });
});

it('refuses a port that is not there, by its name, and goes on to another', async () => {
  const { recorder, lines } = await start();
  await expect(
    recorder.open({ path: '/dev/no-such-bench', baudRate: 115_200, wire, mustExist: true }),
  ).rejects.toMatchObject({ code: 'PORT', message: expect.stringContaining('/dev/no-such-bench') });
  const far = bench();
  await recorder.open({ path: far.path, baudRate: 115_200, wire, mustExist: true });
  far.say(reading(1));
  await lines.until((items) => items.length === 1);
});

it('goes on in the same run when the cable was pulled out in the middle of a line and put back', async () => {
  // The recorder first: forked later, it would inherit the near end, and the pulled cable would never hang up.
  const { recorder, lines, statuses } = await start();
  const far = bench();
  const archive = temporaryArchive();
  await recorder.open({ path: far.path, baudRate: 115_200, wire });
  const { run, folder } = archive.createRun(newRun(far.path));
  await recorder.startRun(folder);
  far.say(`${reading(1)}$2,40000,1`);
  await lines.until((items) => items.length === 1);
  far.pullOut();
  await statuses.until((items) => items.at(-1)?.status === 'waiting');
  far.plugIn();
  await lines.until((items) => items.some(({ fault }) => fault === 'reconnected'));
  far.say(reading(5));
  await lines.until((items) => items.at(-1)?.bytes === reading(5).trimEnd());
  await recorder.stopRun('completed', 'done');
  expect(journalled(folder)).toEqual([
    reading(1).trimEnd(),
    '$2,40000,1 (torn)',
    ' (reconnected)',
    reading(5).trimEnd(),
  ]);
  archive.readRun(run.id);
  const { census } = decodeJournal(readFileSync(join(folder, 'journal.log')), run.bench, 100_000);
  expect(census).toMatchObject({ readingCount: 2, badLineCounts: { torn: 1 }, reconnectCount: 1, lostReadingCount: 3 });
});

it.each([1, 2, 3])(
  'kill -9 of the recorder loses nothing that was written; the next opening seals it (%i)',
  async (round) => {
    const far = bench();
    const archive = temporaryArchive();
    const { recorder, lines, fatal } = await start();
    await recorder.open({ path: far.path, baudRate: 115_200, wire });
    const { run, folder } = archive.createRun(newRun(far.path));
    await recorder.startRun(folder);
    let said = 0;
    while (said < 60 * round) {
      said += 1;
      far.say(reading(said));
    }
    await lines.until((items) => items.length >= 40 * round);
    process.kill(recorder.processId, 'SIGKILL');
    await fatal.until((items) => items.length === 1);
    expect(fatal.items[0]).toMatchObject({ error: { code: 'RECORDER' }, closing: null });
    const told = lines.items.map(({ bytes }) => bytes);
    expect(archive.sealInterrupted()).toMatchObject([{ runId: run.id, sealed: true }]);
    const { closing } = archive.readRun(run.id);
    expect(closing.ending).toBe('recovered');
    const kept = journalled(folder);
    expect(kept).toHaveLength(closing.lineCount);
    expect(kept.slice(0, told.length)).toEqual(told);
    expect(kept).toEqual(Array.from({ length: kept.length }, (_, index) => reading(index + 1).trimEnd()));
  },
);

it('a full disk ends the run as failed, says so, and the port is still read', async () => {
  const far = bench();
  const archive = temporaryArchive();
  const { recorder, lines, fatal } = await start();
  await recorder.open({ path: far.path, baudRate: 115_200, wire });
  const { run, folder } = archive.createRun(newRun(far.path));
  symlinkSync('/dev/full', join(folder, 'journal.log')); // every write: no space left on device
  await recorder.startRun(folder);
  far.say(reading(1));
  const [failure] = await fatal.until((items) => items.length === 1);
  expect(failure?.error).toMatchObject({ code: 'JOURNAL', message: expect.stringContaining('ENOSPC') });
  expect(failure?.closing).toMatchObject({ runId: run.id, ending: 'failed', lineCount: 0 });
  far.say(reading(2));
  await lines.until((items) => items.length === 2);
  await expect(recorder.stopRun('completed', 'done')).rejects.toMatchObject({ code: 'NO_RUN' });
});

it('closes the run properly when the program that started it goes away without a word', async () => {
  const far = bench();
  const archive = temporaryArchive();
  const { run, folder } = archive.createRun(newRun(far.path));
  const parent = fork(fileURLToPath(new URL('./abandoningParent.ts', import.meta.url)), [far.path, folder], {
    execArgv: ['--import', pathToFileURL(createRequire(import.meta.url).resolve('tsx')).href],
  });
  await once(parent, 'message'); // its run is open
  far.say(reading(1));
  await once(parent, 'message'); // and the line was recorded
  const sealed = fileAppears(folder, 'closing.json');
  parent.kill('SIGKILL');
  await sealed;
  const { closing } = archive.readRun(run.id);
  expect(closing).toMatchObject({ ending: 'stopped', reason: 'the program that recorded went away', lineCount: 1 });
});

it('the practice bench inside the recorder takes commands and is recorded like any other', async () => {
  const archive = temporaryArchive();
  const { recorder, lines } = await start();
  const { wire: practiceWire } = sampleBench();
  const practiceModel = { seed: 3, scenario: 'healthy' as const, speedUp: 20, readingsPerS: 50 };
  await recorder.open({ path: 'practice', baudRate: 115_200, wire: practiceWire, practiceModel, mustExist: true });
  await lines.until((items) => items.length > 20);
  const { run, folder } = archive.createRun({ ...newRun('practice'), bench: sampleBench() });
  await recorder.startRun(folder);
  await recorder.command('valve 1');
  await recorder.command('speed 600');
  await lines.until((items) => items.some(({ bytes }) => /^\$\d+,\d+,[^,]+,[^,]+,[^,]+,(?:59\d|60\d)/.test(bytes)));
  await recorder.stopRun('completed', 'done');
  const { census, isPractice, readings } = decodeJournal(readFileSync(join(folder, 'journal.log')), run.bench, 101_325);
  expect(isPractice).toBe(true); // however short the run is
  expect(census.badLineCounts).toEqual({});
  expect(census.lostReadingCount).toBe(0);
  expect(readings.elapsedS.length).toBeGreaterThan(5);
});
