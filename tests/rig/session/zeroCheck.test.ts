import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { withApplied } from '../../../analysis/calibration/zeroCheck.ts';
import { type Archive, openArchive } from '../../../rig/archive/openArchive.ts';
import { openPracticeSession, type PracticeSession } from '../../../rig/session/openPracticeSession.ts';
import { PRACTICE_OIL, PRACTICE_RUN_SET_UP } from '../../../rig/session/practiceConditions.ts';

const CONDITIONS = {
  barometerPa: PRACTICE_RUN_SET_UP.barometerPa.value,
  oilDensityKgPerM3: PRACTICE_OIL.densityAt15CKgPerM3,
};

let folder: string;
let archive: Archive;
let practice: PracticeSession;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'slipwright-zero-'));
  archive = openArchive(folder);
  practice = await openPracticeSession(archive, { seed: 12, scenario: 'healthy', speedUp: 20 });
});
afterEach(async () => {
  await practice.close();
  archive.close();
  rmSync(folder, { recursive: true, force: true });
});

it('takes the zeros at a vented bench, though it was pumping before; nothing else begins meanwhile, and a run carries them', async () => {
  const { session } = practice;
  const request = {
    kind: 'delivery',
    label: 'as rebuilt',
    operator: 'invented',
    oil: PRACTICE_OIL,
    setUp: PRACTICE_RUN_SET_UP,
    pumpId: 'dredger-feed-pump',
  } as const;
  // A pipe full of oil hangs on the suction tapping: 0.04 bar that are no offset.
  for (const command of ['flood', 'speed 600']) await session.commandPractice(command);
  const taking = session.takeZeroCheck(CONDITIONS);
  await expect(session.startRun(request, true)).rejects.toMatchObject({ code: 'RUN_OPEN' });
  await expect(session.takeZeroCheck(CONDITIONS)).rejects.toMatchObject({ code: 'RUN_OPEN' });
  const zeroCheck = await taking;
  const suction = zeroCheck.channels.find(({ channel }) => channel === 'suctionPressure');
  // Five standard uncertainties of the stated offset, 0.0005 bar.
  expect(Math.abs(suction?.offset ?? 1)).toBeLessThan(0.0025);
  const run = await session.startRun({ ...request, zeroCheck: withApplied(zeroCheck, ['flow']) }, true);
  expect(run.zeroCheck?.channels.filter(({ isApplied }) => isApplied).map(({ channel }) => channel)).toEqual(['flow']);
  await expect(session.takeZeroCheck(CONDITIONS)).rejects.toMatchObject({ code: 'RUN_OPEN' });
  await session.stopRun('seen enough');
});

it('ends a zero check with the session', async () => {
  const taking = practice.session.takeZeroCheck(CONDITIONS);
  const settled = expect(taking).rejects.toMatchObject({ code: 'ZERO_TOO_SHORT' });
  await practice.session.close();
  await settled;
});
