import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { RunClosing, RunKind } from '../../analysis/records/runRecord.ts';
import type { RunResult } from '../../analysis/result.ts';
import { type Archive, openArchive } from '../../rig/archive/openArchive.ts';
import { verifyCertificate } from '../../rig/certificate/verifyCertificate.ts';
import { createOil } from '../../rig/practiceBench/oil.ts';
import type { PracticeTruth } from '../../rig/practiceBench/practiceTruth.ts';
import { type PracticeScenario, trueFlowM3PerS } from '../../rig/practiceBench/pumpTruth.ts';
import { PRACTICE_SET_UP } from '../../rig/practiceBench/setUp.ts';
import { type RunningPracticeBench, startPracticeBench } from '../../rig/practiceBench/startPracticeBench.ts';
import { analyseStoredRun } from '../../rig/session/analyseStoredRun.ts';
import { BenchSession } from '../../rig/session/benchSession.ts';
import { fileRunCertificate } from '../../rig/session/fileRunCertificate.ts';
import { PRACTICE_OIL, PRACTICE_RUN_SET_UP } from '../../rig/session/practiceConditions.ts';
import { installSampleRecords } from '../../rig/session/sampleRecords.ts';
import { expectWithinStated } from '../support/withinStated.ts';

/** Any seed does. */
const SEED = Number(process.env.SLIPWRIGHT_SEED ?? 61);
const SPEED_UP = 20;

let folder: string;
let archive: Archive;
let bench: RunningPracticeBench;
let session: BenchSession;

async function openRoad(scenario: PracticeScenario): Promise<void> {
  bench = await startPracticeBench({ seed: SEED, scenario, speedUp: SPEED_UP });
  session = await BenchSession.open({
    archive,
    bench: installSampleRecords(archive),
    port: { path: bench.path, mustExist: true },
    programVersion: 'test',
  });
  while (session.state().practice === null) await new Promise((resolve) => setTimeout(resolve, 20));
}

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'slipwright-road-'));
  archive = openArchive(join(folder, 'archive'));
  process.env.SLIPWRIGHT_KEYS = join(folder, 'keys');
});
afterEach(async () => {
  await session.close();
  await bench.stop();
  archive.close();
  rmSync(folder, { recursive: true, force: true });
});

/** One run that steps itself, until it is sealed; what the bench knows is asked before anything else happens on it. */
async function recorded(kind: RunKind): Promise<{ id: string; result: RunResult; truth: PracticeTruth }> {
  const sealed = new Promise<RunClosing>((resolve) => session.onSealed(resolve));
  const { id } = await session.startRun({
    kind,
    label: 'as rebuilt',
    operator: 'invented',
    pumpId: 'dredger-feed-pump',
    oil: PRACTICE_OIL,
    setUp: PRACTICE_RUN_SET_UP,
  });
  const closing = await sealed;
  expect(closing.ending).toBe('completed');
  expect(session.state().trouble).toBeNull();
  return { id, result: analyseStoredRun(archive, id).result, truth: await bench.truth() };
}

function expectCapacityAndEfficiency(result: RunResult, truth: PracticeTruth): void {
  const law = result.delivery?.law;
  if (law === undefined || !law.ok) throw new Error(law?.reason.text ?? 'no delivery');
  const capacity = law.value.stated.derivedCapacityM3PerRev;
  expect(Math.abs(capacity.value / truth.derivedCapacityM3PerRev - 1)).toBeLessThan(0.01);
  expectWithinStated(capacity, truth.derivedCapacityM3PerRev);

  const efficiency = result.verdicts.find(({ demand }) => demand.id === 'efficiency');
  if (efficiency?.value == null || efficiency.demand.quantity !== 'volumetricEfficiency') throw new Error('not judged');
  const { at } = efficiency.demand;
  const trueEfficiency =
    trueFlowM3PerS(truth.pump, createOil(PRACTICE_SET_UP), at) / (truth.derivedCapacityM3PerRev * at.speedRevPerS);
  expect(Math.abs(efficiency.value.value - trueEfficiency)).toBeLessThan(0.01);
}

describe(`from a dry pump to a filed certificate, over a pseudo-terminal (seed ${SEED})`, () => {
  it('passes a healthy pump: priming, capacity and efficiency as the bench was built, certificate whole', async () => {
    await openRoad('healthy');
    const dry = await recorded('dryLift');
    const priming = dry.result.dryLift?.priming;
    if (priming === undefined || !priming.ok || !priming.value.primed) throw new Error('not primed');
    const { value, expandedUncertainty } = priming.value.primingTimeS;
    const errorS = Math.abs(value - (dry.truth.priming.primingTimeS ?? Number.NaN));
    expect(errorS).toBeLessThanOrEqual(Math.max(0.1, expandedUncertainty));
    expect(dry.result.outcome).toBe('pass');

    const delivery = await recorded('delivery');
    expectCapacityAndEfficiency(delivery.result, delivery.truth);
    expect(delivery.result.outcome).toBe('pass');

    const filed = await fileRunCertificate(archive, [dry.id, delivery.id], 'invented');
    if (!filed.ok) throw new Error(filed.reason.text);
    expect(filed.value.data.outcome).toBe('pass');
    expect(filed.value.data.isSpecimen).toBe(true);
    for (const path of [filed.value.paths.pdf, filed.value.paths.json]) {
      expect(verifyCertificate(path)).toMatchObject({
        state: 'whole',
        outcome: 'pass',
        isKeyKnown: true,
        isSpecimen: true,
      });
    }
    expect(archive.certificatesOf('dredger-feed-pump').map(({ number }) => number)).toEqual([filed.value.number]);
  }, 90_000);

  it('fails a worn pump on flow and efficiency, and files that too', async () => {
    await openRoad('worn');
    const { id, result, truth } = await recorded('delivery');
    expectCapacityAndEfficiency(result, truth);
    expect(result.outcome).toBe('fail');
    const filed = await fileRunCertificate(archive, [id], 'invented');
    if (!filed.ok) throw new Error(filed.reason.text);
    expect(verifyCertificate(filed.value.paths.pdf)).toMatchObject({ state: 'whole', outcome: 'fail' });
  }, 90_000);

  it('fails a pump that will not prime: no oil in the time that it may turn dry', async () => {
    await openRoad('unprimable');
    const { result, truth } = await recorded('dryLift');
    expect(truth.priming.primedAtS).toBeNull();
    expect(result.dryLift?.priming).toMatchObject({ ok: true, value: { primed: false } });
    expect(result.outcome).toBe('fail');
  }, 90_000);
});
