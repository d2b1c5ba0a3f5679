import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { beforeAll, expect, it } from 'vitest';
import { findCriteria } from '../../../rig/archive/findCriteria.ts';
import type { FoundEntry } from '../../../rig/archive/indexEntries.ts';
import { type Archive, openArchive } from '../../../rig/archive/openArchive.ts';
import { RunRecording } from '../../../rig/journal/runRecording.ts';
import { feedPump } from '../../support/certificateRecords.ts';
import { deliveryRun, dryLiftRun } from '../../support/certificateRuns.ts';
import { type CertificateRig, certificateRig, fileOne } from '../../support/filedCertificates.ts';
import { samplePump } from '../../support/samples.ts';
import { newRun, temporaryArchive } from './newRun.ts';

let rig: CertificateRig;
let archive: Archive;
let runId: string;

/** Two pumps, a sealed run of 2026-11-25, and certificates of June 2026 and March 2027 on a pump of another machine. */
beforeAll(async () => {
  rig = await certificateRig();
  archive = rig.archive;
  archive.savePump(samplePump('dredger-feed-pump'));
  archive.savePump(samplePump('dredger-return-pump'));
  const { run, folder } = archive.createRun(newRun());
  const recording = new RunRecording(folder, (error) => {
    throw error;
  });
  recording.append({ monotonicUs: 1, bytes: '$1', fault: null });
  recording.close('completed', 'all steps done');
  runId = run.id;
  const other = {
    ...feedPump(),
    id: 'lock-pump',
    serialNumber: 'Nº 17/3',
    duty: { machine: 'Schleusentor Süd (invented)', demands: feedPump().duty?.demands ?? [], suction: null },
  };
  await fileOne(rig, [deliveryRun(), dryLiftRun()], new Date('2026-06-12T09:00:00Z'));
  await fileOne(rig, [deliveryRun({ pump: other }), dryLiftRun({ pump: other })], new Date('2027-03-01T09:00:00Z'));
  archive.refreshIndex();
});

function nameOf(found: FoundEntry): string {
  if (found.what === 'pump') return found.pump.pumpId;
  return found.what === 'run' ? found.run.id : found.certificate.number;
}

function found(criteria: object, of: Archive = archive): readonly string[] {
  return of.find(findCriteria.parse(criteria)).found.map(nameOf);
}

it('finds everything where nothing is asked: pumps first, then the newest', () => {
  expect(new Set(found({}).slice(0, 2))).toEqual(new Set(['dredger-feed-pump', 'dredger-return-pump']));
  expect(found({}).slice(2)).toEqual(['2027-0001', runId, '2026-0001']);
});

it('finds by the beginnings of words, without capitals and accents, and of every word', () => {
  expect(found({ words: 'SCHLEUSENTOR sud' })).toEqual(['2027-0001']);
  expect(found({ words: 'schleu' })).toEqual(['2027-0001']);
  expect(found({ words: 'schleusentor dredger-return' })).toEqual([]);
  expect(found({ words: 'chleusentor' })).toEqual([]);
});

it('finds by serial number, machine, kind, pump, type and verdict', () => {
  expect(found({ serialNumber: 'KB-204', what: 'certificate' })).toEqual(['2026-0001']);
  expect(found({ serialNumber: 'kb 20', what: 'certificate' })).toEqual(['2026-0001']);
  expect(found({ serialNumber: '204', what: 'certificate' })).toEqual([]);
  expect(found({ serialNumber: 'nº 17/3' })).toEqual(['2027-0001']);
  expect(found({ machine: 'schleusentor' })).toEqual(['2027-0001']);
  expect(found({ what: 'run' })).toEqual([runId]);
  expect(found({ pumpId: 'lock-pump' })).toEqual(['2027-0001']);
  expect(found({ type: 'twin screw' })).toEqual(['dredger-return-pump']);
  expect(found({ outcome: 'pass' })).toEqual(['2027-0001', '2026-0001']);
  expect(found({ outcome: 'fail' })).toEqual([]);
});

it('finds certificates by an instrument that they rest on, and by the certificate of its calibration', () => {
  const { instrument, calibration } = deliveryRun().run.bench.channels[0] ?? {};
  expect(instrument).toBeTruthy();
  expect(found({ words: instrument, what: 'certificate' })).toEqual(['2027-0001', '2026-0001']);
  expect(found({ words: calibration?.reference, what: 'certificate' })).toEqual(['2027-0001', '2026-0001']);
});

it('takes both days of a span in, and leaves pumps, which have none, out', () => {
  expect(found({ from: '2026-06-12', to: '2026-11-25' })).toEqual([runId, '2026-0001']);
  expect(found({ from: '2026-06-13' })).toEqual(['2027-0001', runId]);
  expect(found({ to: '2026-06-12' })).toEqual(['2026-0001']);
  expect(found({ to: '2026-06-11' })).toEqual([]);
});

it('gives pages that add up to the whole, and says how many there are', () => {
  const pages = [1, 2, 3, 4].map((page) => archive.find(findCriteria.parse({ page, pageSize: 2 })));
  expect(pages.map(({ total }) => total)).toEqual([5, 5, 5, 5]);
  expect(pages.map((page) => page.found.length)).toEqual([2, 2, 1, 0]);
  expect(pages.flatMap((page) => page.found.map(nameOf))).toEqual(found({}));
});

it.each(['"', '-', '*', 'a" OR "b', 'NEAR(', "'; DROP TABLE entries; --", 'tags:'])(
  'takes %j as it was typed',
  (typed) => {
    for (const field of ['words', 'serialNumber', 'machine']) expect(() => found({ [field]: typed })).not.toThrow();
    expect(found({}).length).toBe(5);
  },
);

it('an index that is thrown away, or was made by an earlier version, is made anew from the files', () => {
  const everything = archive.find(findCriteria.parse({}));
  archive.close();
  const path = join(archive.directory, 'index.sqlite');
  for (const end of ['', '-wal', '-shm']) rmSync(`${path}${end}`, { force: true });
  const old = new Database(path);
  old.exec('CREATE TABLE runs (id TEXT PRIMARY KEY, entry TEXT NOT NULL) STRICT');
  old.close();
  const reopened = temporaryArchive(archive.directory);
  expect(new Set(found({}, reopened))).toEqual(new Set(everything.found.map(nameOf)));
  expect(reopened.find(findCriteria.parse({ what: 'certificate' }))).toEqual({
    ...everything,
    total: 2,
    found: everything.found.filter(({ what }) => what === 'certificate'),
  });
});

it('adds what another program filed and was killed before it could say so', async () => {
  const own = await certificateRig();
  const killed = { ...own.archive, addCertificate: () => undefined };
  await fileOne({ ...own, archive: Object.assign(Object.create(own.archive), killed) });
  expect(found({}, own.archive)).toEqual([]);
  own.archive.refreshIndex();
  expect(found({}, own.archive)).toEqual(['2026-0001']);
});

it('names an index of a later version, and one that is damaged', () => {
  const own = temporaryArchive();
  own.close();
  const path = join(own.directory, 'index.sqlite');
  const later = new Database(path);
  later.pragma('user_version = 99');
  later.close();
  expect(() => openArchive(own.directory)).toThrowError(/index\.sqlite.*later version of this program \(99/);
  writeFileSync(path, 'not a database, and long enough that its head is read as one'.repeat(20));
  rmSync(`${path}-wal`, { force: true });
  expect(() => openArchive(own.directory)).toThrowError(
    expect.objectContaining({ code: 'ARCHIVE', message: expect.stringContaining('archive rebuild') }),
  );
});
