import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { sampleStrip } from '../../support/samples.ts';
import { temporaryArchive } from './newRun.ts';

it('keeps every version of a strip sheet in a folder of its own', () => {
  const archive = temporaryArchive();
  const first = archive.saveStrip(sampleStrip('dredger-feed-pump'));
  expect(archive.saveStrip(sampleStrip('dredger-feed-pump')).version).toBe(1);
  const second = archive.saveStrip({ ...first, remarks: 'gasket renewed (invented)' });
  expect(second.version).toBe(2);
  expect(archive.latestStrip(first.id)).toEqual(second);
  archive.saveStrip(sampleStrip('dredger-return-pump'));
  expect(archive.listStrips().map(({ pumpId }) => pumpId)).toEqual(['dredger-feed-pump', 'dredger-return-pump']);
  expect(readdirSync(join(archive.directory, 'strips', first.id))).toEqual(['1.json', '2.json', 'SHA256SUMS']);
});

it('refuses a strip sheet by its file and field', () => {
  const archive = temporaryArchive();
  const wrong = { ...sampleStrip('dredger-feed-pump'), partsTemperatureK: { value: -1, standardUncertainty: 0 } };
  expect(() => archive.saveStrip(wrong, 'strip.json')).toThrowError(
    expect.objectContaining({
      code: 'RECORD',
      message: expect.stringMatching(/strip\.json.*partsTemperatureK\.value/),
    }),
  );
  expect(() => archive.latestStrip('no-such-sheet')).toThrowError(expect.objectContaining({ code: 'RECORD' }));
});
