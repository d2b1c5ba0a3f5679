import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Archive, openArchive } from '../../../rig/archive/openArchive.ts';
import { type RunningPracticeBench, startPracticeBench } from '../../../rig/practiceBench/startPracticeBench.ts';
import { BenchSession } from '../../../rig/session/benchSession.ts';
import { PRACTICE_OIL, PRACTICE_RUN_SET_UP } from '../../../rig/session/practiceConditions.ts';
import { installSampleRecords } from '../../../rig/session/sampleRecords.ts';
import type { SessionState } from '../../../rig/session/sessionState.ts';

let folder: string;
let archive: Archive;
let bench: RunningPracticeBench;
let session: BenchSession;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'slipwright-session-'));
  archive = openArchive(folder);
  bench = await startPracticeBench({ seed: 3, scenario: 'healthy', speedUp: 20 });
  session = await BenchSession.open({
    archive,
    bench: installSampleRecords(archive),
    port: { path: bench.path, mustExist: true },
    programVersion: 'test',
  });
  await until((state) => state.practice !== null);
});
afterEach(async () => {
  await session.close();
  await bench.stop();
  archive.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Waits for a state of the session. */
async function until(isSo: (state: SessionState) => boolean): Promise<void> {
  while (!isSo(session.state())) {
    await new Promise<void>((resolve) => {
      const forget = session.onState(() => {
        forget();
        resolve();
      });
    });
  }
}

const REQUEST = {
  kind: 'delivery',
  label: 'as found',
  operator: 'invented',
  oil: PRACTICE_OIL,
  setUp: PRACTICE_RUN_SET_UP,
  pumpId: 'dredger-feed-pump',
} as const;

describe('a session at the bench', () => {
  it('knows the practice bench by its greeting and shows that the line speaks', async () => {
    await until((state) => state.linesPerS > 100);
    expect(session.state()).toMatchObject({
      connection: { status: 'open', path: bench.path },
      practice: { speedUp: 20 },
      openRun: null,
      trouble: null,
    });
  });

  it('leaves the bench alone in a run by hand, keeps marks, and seals it when it is stopped', async () => {
    await session.startRun(REQUEST, true);
    await until((state) => (state.openRun?.elapsedS ?? 0) > 8);
    expect((await bench.truth()).priming.motorStartS).toBeNull();
    expect(session.state().openRun?.guide.stepsDone).toBe(0);
    await session.mark('vented the delivery');
    const closing = await session.stopRun('seen enough');
    expect(closing).toMatchObject({ ending: 'stopped', reason: 'seen enough' });
    expect(session.state()).toMatchObject({ openRun: null, lastSealedRunId: closing.runId });
    expect(archive.readRun(closing.runId).marks.map(({ text }) => text)).toEqual(['vented the delivery']);
  });

  it('starts one run at a time, however many are asked for at once', async () => {
    const both = await Promise.allSettled([session.startRun(REQUEST, true), session.startRun(REQUEST, true)]);
    expect(both.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
    await expect(session.startRun(REQUEST)).rejects.toMatchObject({ code: 'RUN_OPEN' });
    expect(archive.listRuns()).toHaveLength(1);
  });

  it('refuses to stop or to mark what is not open', async () => {
    await expect(session.stopRun('nothing')).rejects.toMatchObject({ code: 'NO_RUN' });
    await expect(session.mark('nothing')).rejects.toMatchObject({ code: 'NO_RUN' });
  });

  it('refuses a dry start of a pump that must never run dry', async () => {
    archive.savePump({ ...archive.latestPump('dredger-feed-pump'), mayRunDry: false });
    await expect(session.startRun({ ...REQUEST, kind: 'dryLift' })).rejects.toMatchObject({ code: 'MUST_NOT_RUN_DRY' });
    await expect(session.startRun({ ...REQUEST, pumpId: 'no-such-pump' })).rejects.toMatchObject({ code: 'RECORD' });
    expect(archive.listRuns()).toEqual([]);
  });

  it('refuses to begin a run on a line that went away', async () => {
    await bench.stop();
    await until((state) => state.connection.status === 'waiting');
    await expect(session.startRun(REQUEST)).rejects.toMatchObject({ code: 'LINE_NOT_OPEN' });
    await expect(session.commandPractice('speed 900')).rejects.toMatchObject({ code: 'NOT_PRACTICE' });
  });
});
