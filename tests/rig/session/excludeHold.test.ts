import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Archive, openArchive } from '../../../rig/archive/openArchive.ts';
import { analyseStoredRun, openStoredRun } from '../../../rig/session/analyseStoredRun.ts';
import { excludeHold } from '../../../rig/session/excludeHold.ts';
import { copySampleRuns } from '../../support/samples.ts';

const DELIVERY_RUN = '2026-11-26-0002';

let folder: string;
let archive: Archive;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'slipwright-exclude-'));
  copySampleRuns(folder, [DELIVERY_RUN]);
  archive = openArchive(folder);
});
afterAll(() => {
  archive.close();
  rmSync(folder, { recursive: true, force: true });
});

it('takes a hold out of the fit with its reason, keeps both lines, and gives the first result back once it is back in', () => {
  const before = analyseStoredRun(archive, DELIVERY_RUN).result;
  const hold = before.delivery?.holds[4];
  if (hold === undefined) throw new Error('the sample run has no fifth hold');
  const stretch = { person: 'A. Fitter (invented)', fromS: hold.startS, toS: hold.endS };

  const out = excludeHold(archive, DELIVERY_RUN, { ...stretch, isExcluded: true, reason: 'valve touched' }).result;
  expect(out.delivery?.holds[4]?.leftOut).toEqual({ cause: 'person', reason: 'valve touched' });
  expect(out.delivery?.law.ok && out.delivery.law.value.holdCount).toBe((before.delivery?.holds.length ?? 0) - 1);
  expect(openStoredRun(archive, DELIVERY_RUN).result).toEqual(out);

  const back = excludeHold(archive, DELIVERY_RUN, { ...stretch, isExcluded: false, reason: 'it was hold 6' }).result;
  expect(back.delivery).toEqual(before.delivery);
  expect(back.exclusions.map(({ reason }) => reason)).toEqual(['valve touched', 'it was hold 6']);
});

it('writes nothing for a run that is not there', () => {
  const line = { person: 'A. Fitter', fromS: 0, toS: 1, isExcluded: true, reason: 'none' };
  expect(() => excludeHold(archive, 'never-recorded', line)).toThrow();
  expect(existsSync(join(folder, 'runs', 'never-recorded'))).toBe(false);
});
