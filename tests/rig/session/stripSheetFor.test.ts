import { expect, it } from 'vitest';
import { installSampleRecords } from '../../../rig/session/sampleRecords.ts';
import { stripSheetFor } from '../../../rig/session/stripSheetFor.ts';
import { sampleStrip } from '../../support/samples.ts';
import { temporaryArchive } from '../archive/newRun.ts';

it('gives a run as found the latest sheet measured as found, and any other the latest as rebuilt', () => {
  const archive = temporaryArchive();
  const rebuilt = sampleStrip('dredger-feed-pump');
  const sheet = (id: string, occasion: typeof rebuilt.occasion, measuredOn: string) =>
    archive.saveStrip({ ...rebuilt, id, occasion, measuredOn });
  sheet('found-early', 'as found', '2025-01-10');
  sheet('found-late', 'as found', '2026-01-10');
  sheet('built-late', 'as rebuilt', '2026-02-01');
  sheet('built-early', 'as rebuilt', '2025-02-01');
  expect(stripSheetFor(archive, rebuilt.pumpId, 'as found')?.id).toBe('found-late');
  expect(stripSheetFor(archive, rebuilt.pumpId, 'as rebuilt')?.id).toBe('built-late');
  expect(stripSheetFor(archive, rebuilt.pumpId, 'run in')?.id).toBe('built-late');
  expect(stripSheetFor(archive, 'another-pump', 'as rebuilt')).toBeNull();
});

it('has no sheet for a run as found where the pump was only measured as rebuilt', () => {
  const archive = temporaryArchive();
  archive.saveStrip(sampleStrip('dredger-feed-pump'));
  expect(stripSheetFor(archive, 'dredger-feed-pump', 'as found')).toBeNull();
});

it('puts the sample pumps into an archive with their strip sheets, once, and leaves those of a person alone', () => {
  const archive = temporaryArchive();
  const own = archive.saveStrip({ ...sampleStrip('dredger-feed-pump'), id: 'my-own', remarks: 'mine' });
  installSampleRecords(archive);
  installSampleRecords(archive);
  expect(archive.listStrips().map(({ id, version }) => `${id} ${version}`)).toEqual([
    'dredger-return-pump-rebuilt 1',
    `${own.id} 1`,
  ]);
  expect(stripSheetFor(archive, 'dredger-return-pump', 'as rebuilt')?.pumpId).toBe('dredger-return-pump');
});
