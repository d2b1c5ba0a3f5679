import { appendFileSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { HoldExclusion } from '../../../analysis/records/runRecord.ts';
import type { RunResult } from '../../../analysis/result.ts';
import { exactly } from '../../../analysis/uncertainty/source.ts';
import { tryLock } from '../../../rig/archive/lock.ts';
import { openArchive } from '../../../rig/archive/openArchive.ts';
import { RunRecording } from '../../../rig/journal/runRecording.ts';
import { samplePump } from '../../support/samples.ts';
import { newRun, sourceFile, temporaryArchive, temporaryFolder } from './newRun.ts';

function failToSync(error: Error): void {
  throw error;
}

/** Records lines with whole or torn content without a port. */
function recordRun(archive: ReturnType<typeof temporaryArchive>, lines: readonly string[]): string {
  const { run, folder } = archive.createRun(newRun());
  const recording = new RunRecording(folder, failToSync);
  for (const [index, bytes] of lines.entries()) recording.append({ monotonicUs: index, bytes, fault: null });
  recording.mark('valve half open');
  recording.close('completed', 'all steps done');
  return run.id;
}

/** A run that was cut off: its journal is there, its closing is not, nobody holds its lock. */
function cutOffRun(archive: ReturnType<typeof temporaryArchive>, journal: string, marks = ''): string {
  const { run, folder } = archive.createRun(newRun());
  writeFileSync(join(folder, 'journal.log'), journal);
  appendFileSync(join(folder, 'marks.jsonl'), marks);
  return run.id;
}

it('makes the folders of an archive, and opens them again', () => {
  const directory = join(temporaryFolder(), 'new', 'archive');
  temporaryArchive(directory);
  temporaryArchive(directory);
  for (const name of ['pumps', 'benches', 'people', 'runs', 'certificates', 'attachments', 'index.sqlite']) {
    expect(existsSync(join(directory, name)), name).toBe(true);
  }
});

it('refuses a folder that cannot be made, by its name', () => {
  const file = join(temporaryFolder(), 'file');
  writeFileSync(file, '');
  expect(() => openArchive(join(file, 'archive'))).toThrowError(
    expect.objectContaining({ code: 'ARCHIVE', message: expect.stringContaining(join(file, 'archive')) }),
  );
});

it('keeps every version of a pump, and makes none where nothing changed', () => {
  const archive = temporaryArchive();
  const first = archive.savePump({ ...samplePump('dredger-feed-pump'), version: 9 });
  expect(first.version).toBe(1);
  expect(archive.savePump(samplePump('dredger-feed-pump')).version).toBe(1);
  const second = archive.savePump({ ...first, remarks: 'new bushings' });
  expect(second).toEqual({ ...first, version: 2, remarks: 'new bushings' });
  expect(archive.latestPump(first.id)).toEqual(second);
  archive.savePump(samplePump('dredger-return-pump'));
  expect(archive.listPumps().map(({ id, version }) => [id, version])).toEqual([
    ['dredger-feed-pump', 2],
    ['dredger-return-pump', 1],
  ]);
  expect(readdirSync(join(archive.directory, 'pumps', first.id))).toEqual(['1.json', '2.json', 'SHA256SUMS']);
});

it('refuses a pump record by its file and field: a negative clearance, a tip circle inside the pitch circle', () => {
  const archive = temporaryArchive();
  const pump = samplePump('dredger-feed-pump');
  const withGeometry = (change: object): object => ({ ...pump, geometry: { ...pump.geometry, ...change } });
  const saving = (change: object) => () => archive.savePump(withGeometry(change), 'my-pump.json');
  expect(saving({ tipClearanceM: { value: -1e-5, standardUncertainty: 0 } })).toThrowError(
    expect.objectContaining({
      code: 'RECORD',
      message: expect.stringMatching(/my-pump\.json.*geometry\.tipClearanceM\.value/),
    }),
  );
  expect(saving({ tipDiameterM: { value: 0.03, standardUncertainty: 0 } })).toThrowError(
    expect.objectContaining({
      code: 'RECORD',
      message: expect.stringMatching(/geometry\.tipDiameterM\.value.*pitch circle/),
    }),
  );
  expect(() => archive.latestPump('no-such-pump')).toThrowError(expect.objectContaining({ code: 'RECORD' }));
  expect(() => archive.savePump('nonsense')).toThrowError(expect.objectContaining({ code: 'RECORD' }));
});

it('names runs by day and counter, run.json and marks whole before the first byte', () => {
  const archive = temporaryArchive();
  const first = archive.createRun(newRun());
  const second = archive.createRun(newRun());
  expect([first.run.id, second.run.id]).toEqual(['2026-11-25-0001', '2026-11-25-0002']);
  expect(JSON.parse(readFileSync(join(first.folder, 'run.json'), 'utf8'))).toEqual(first.run);
  expect(readFileSync(join(first.folder, 'marks.jsonl'), 'utf8')).toBe('');
  mkdirSync(join(archive.directory, 'runs', '2026-11-25-0009'));
  expect(archive.createRun(newRun()).run.id).toBe('2026-11-25-0010');
});

it('reads a sealed run back, and lists it', () => {
  const archive = temporaryArchive();
  const id = recordRun(archive, ['$1', '$2']);
  const { run, closing, marks, folder } = archive.readRun(id);
  expect(run.id).toBe(id);
  expect(closing).toMatchObject({ runId: id, ending: 'completed', reason: 'all steps done', lineCount: 2 });
  expect(closing.byteLength).toBe('0\t$1\n1\t$2\n'.length);
  expect(marks.map(({ text }) => text)).toEqual(['valve half open']);
  expect(existsSync(join(folder, 'open.lock'))).toBe(false);
  const open = archive.createRun(newRun()).run.id;
  expect(archive.listRuns().map((entry) => [entry.id, entry.ending, entry.outcome])).toEqual([
    [open, 'open', null],
    [id, 'completed', null],
  ]);
  expect(() => archive.readRun(open)).toThrowError(expect.objectContaining({ code: 'RUN' }));
  expect(() => archive.readRun('2020-01-01-0001')).toThrowError(expect.objectContaining({ code: 'RUN' }));
  expect(() => archive.readRun('../pumps')).toThrowError(expect.objectContaining({ code: 'RUN' }));
});

it.each(['run.json', 'journal.log', 'marks.jsonl'])('one changed byte in %s is found and named', (name) => {
  const archive = temporaryArchive();
  const id = recordRun(archive, ['$1', '$2']);
  const path = join(archive.readRun(id).folder, name);
  const bytes = readFileSync(path);
  bytes.writeUInt8(bytes.readUInt8(3) ^ 1, 3);
  writeFileSync(path, bytes);
  expect(() => archive.readRun(id)).toThrowError(
    expect.objectContaining({ code: 'CHANGED', message: expect.stringContaining(name) }),
  );
  rmSync(path);
  expect(() => archive.readRun(id)).toThrowError(expect.objectContaining({ code: 'CHANGED' }));
});

it('seals a run that was cut off up to its last whole line, and keeps the rest beside it', () => {
  const archive = temporaryArchive();
  const aMark = '{"monotonicUs":5,"atUtc":"2026-11-25T09:31:00Z","text":"valve"}\n';
  const id = cutOffRun(archive, '1\t$1\n2\t$2\n3\t$to', `${aMark}{"mono`);
  const never = archive.createRun(newRun()).run.id; // cut off before its first byte
  const reopened = temporaryArchive(archive.directory);
  expect(reopened.recoveries.map(({ runId, sealed }) => [runId, sealed])).toEqual([
    [id, true],
    [never, true],
  ]);
  const { closing, folder, marks } = reopened.readRun(id);
  expect(closing).toMatchObject({ ending: 'recovered', lineCount: 2, reason: expect.stringContaining('11 bytes') }); // 5 and 6
  expect(marks).toHaveLength(1);
  expect(readFileSync(join(folder, 'journal.log'), 'utf8')).toBe('1\t$1\n2\t$2\n');
  expect(readFileSync(join(folder, 'journal.tail'), 'utf8')).toBe('3\t$to');
  expect(readFileSync(join(folder, 'marks.tail'), 'utf8')).toBe('{"mono');
  expect(reopened.readRun(never).closing).toMatchObject({ ending: 'recovered', lineCount: 0 });
  expect(reopened.sealInterrupted()).toEqual([]);
});

it('leaves a run alone whose lock is held, and says which it cannot seal', () => {
  const archive = temporaryArchive();
  const id = cutOffRun(archive, '1\t$1\n');
  const lock = tryLock(join(archive.directory, 'runs', id, 'open.lock'));
  expect(archive.sealInterrupted()).toEqual([]);
  lock?.release();
  mkdirSync(join(archive.directory, 'runs', '2026-11-26-0001'));
  expect(archive.sealInterrupted().map(({ runId, sealed }) => [runId, sealed])).toEqual([
    [id, true],
    ['2026-11-26-0001', false],
  ]);
});

it('takes a CSV as a run, its bytes as they are; one that is refused leaves nothing behind', async () => {
  const archive = temporaryArchive();
  const { source: _, ...rest } = newRun();
  const csv = Buffer.from('elapsed [s],flow [l/min]\r\n0,1\r\n1,2');
  const { sealed: imported } = await archive.importRun('old-run.csv', sourceFile(csv), () => rest);
  expect(readFileSync(join(imported.folder, 'journal.csv'))).toEqual(csv);
  const read = archive.readRun(imported.run.id);
  expect(read.closing).toMatchObject({ ending: 'completed', lineCount: 3 });
  expect(read.run.source).toMatchObject({ kind: 'import', fileName: 'old-run.csv' });
  const refused = archive.importRun('bad.csv', sourceFile(Buffer.from('elapsed [s],flow [l/min]\nx,1\n')), () => rest);
  await expect(refused).rejects.toMatchObject({ code: 'CSV' });
  expect(archive.listRuns()).toHaveLength(1);
  expect(readdirSync(join(archive.directory, 'runs'))).toEqual([imported.run.id]);
});

it('keeps a result as a cache: by run and version of the analysis', () => {
  const archive = temporaryArchive();
  const id = recordRun(archive, ['$1']);
  const result: RunResult = {
    format: 'slipwright.result/2',
    analysisVersion: '1',
    runId: id,
    kind: 'delivery',
    isPractice: false,
    census: {
      lineCount: 1,
      readingCount: 0,
      noteCount: 0,
      badLineCounts: {},
      lostReadingCount: 0,
      reconnectCount: 0,
    },
    findings: [],
    exclusions: [],
    relief: null,
    suction: null,
    sources: {},
    theory: {
      sweptVolumeM3PerRev: {
        value: 1e-5,
        standardUncertainty: 0,
        degreesOfFreedom: null,
        coverageFactor: 2,
        expandedUncertainty: 0,
        budget: [],
      },
      sweptVolume: exactly(1e-5),
      basis: 'stated by nobody',
      flowRipple: null,
    },
    delivery: null,
    dryLift: null,
    verdicts: [],
    outcome: 'measured',
  };
  expect(archive.readResult(id, '1')).toBeNull();
  archive.saveResult(id, result);
  archive.saveResult(id, result);
  expect(archive.readResult(id, '1')).toEqual(result);
  expect(archive.readResult(id, '2')).toBeNull();
  expect(archive.listRuns()[0]?.outcome).toBe('measured');
  writeFileSync(join(archive.readRun(id).folder, 'result.json'), '{"broken');
  expect(archive.readResult(id, '1')).toBeNull();
});

const TAKEN_OUT: HoldExclusion = {
  atUtc: '2026-11-26T08:00:00Z',
  person: 'A. Fitter (invented)',
  fromS: 10,
  toS: 20,
  isExcluded: true,
  reason: 'valve touched',
};

it('adds to what a person took out line by line, and changes nothing that is sealed', () => {
  const archive = temporaryArchive();
  const id = recordRun(archive, ['$1']);
  const before = archive.readRun(id);
  expect(archive.readExclusions(id)).toEqual([]);
  archive.addExclusion(id, TAKEN_OUT);
  const back = { ...TAKEN_OUT, atUtc: '2026-11-26T08:05:00Z', isExcluded: false, reason: 'it was the next hold' };
  archive.addExclusion(id, back);
  expect(archive.readExclusions(id)).toEqual([TAKEN_OUT, back]);
  expect(archive.readRun(id)).toEqual(before);
  expect(() => archive.addExclusion(id, { ...TAKEN_OUT, reason: '' })).toThrowError(
    expect.objectContaining({ code: 'RECORD', message: expect.stringContaining('reason') }),
  );
  expect(archive.readExclusions(id)).toHaveLength(2);
});

it('refuses a line of exclusions that was cut off, by file and line, and adds nothing behind it', () => {
  const archive = temporaryArchive();
  const id = recordRun(archive, ['$1']);
  archive.addExclusion(id, TAKEN_OUT);
  const path = join(archive.readRun(id).folder, 'exclusions.jsonl');
  for (const cutOff of ['{"atUtc":"2026-', JSON.stringify(TAKEN_OUT)]) {
    const torn = `${JSON.stringify(TAKEN_OUT)}\n${cutOff}`;
    writeFileSync(path, torn);
    const refusal = expect.objectContaining({
      code: 'RECORD',
      message: expect.stringMatching(/exclusions\.jsonl, line 2.*cut off/),
    });
    expect(() => archive.readExclusions(id)).toThrowError(refusal);
    expect(() => archive.addExclusion(id, TAKEN_OUT)).toThrowError(refusal);
    expect(readFileSync(path, 'utf8')).toBe(torn);
  }
});

it('the index can be thrown away and made anew from the files', () => {
  const archive = temporaryArchive();
  recordRun(archive, ['$1']);
  const runs = archive.listRuns();
  archive.close();
  for (const end of ['', '-wal', '-shm']) rmSync(join(archive.directory, `index.sqlite${end}`), { force: true });
  const reopened = temporaryArchive(archive.directory);
  expect(reopened.listRuns()).toEqual(runs);
  reopened.rebuildIndex();
  expect(reopened.listRuns()).toEqual(runs);
});

it('files one certificate at a time, also of two programs at one archive', async () => {
  const archive = temporaryArchive();
  const other = temporaryArchive(archive.directory);
  const story: string[] = [];
  const file = (name: string) => async (): Promise<void> => {
    story.push(`${name} begins`);
    await new Promise<void>((resolve) => setImmediate(resolve));
    story.push(`${name} ends`);
  };
  await Promise.all([
    archive.withFilingLock(file('a')),
    other.withFilingLock(file('b')),
    archive.withFilingLock(file('c')),
  ]);
  for (let index = 0; index < story.length; index += 2) {
    expect(story[index + 1]).toBe(story[index]?.replace('begins', 'ends'));
  }
  await expect(archive.withFilingLock(() => Promise.reject(new Error('no key')))).rejects.toThrow('no key');
  expect(await archive.withFilingLock(() => 7)).toBe(7);
});
