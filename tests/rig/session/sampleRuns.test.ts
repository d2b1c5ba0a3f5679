import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Archive, openArchive } from '../../../rig/archive/openArchive.ts';
import { createPracticeBench } from '../../../rig/practiceBench/createPracticeBench.ts';
import { analyseStoredRun } from '../../../rig/session/analyseStoredRun.ts';
import { expectWithinStated } from '../../support/withinStated.ts';

const SAMPLE_RUNS = fileURLToPath(new URL('../../../samples/runs', import.meta.url));

/** The bench that recorded the samples, as samples/README.md says. */
const TRUTH = createPracticeBench({ seed: 2026, scenario: 'healthy' }).truth();

describe('the sample runs', () => {
  let folder: string;
  let archive: Archive;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'slipwright-samples-'));
    cpSync(SAMPLE_RUNS, join(folder, 'runs'), { recursive: true });
    archive = openArchive(folder);
  });
  afterAll(() => {
    archive.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('are whole, sealed, and known as practice by their own journal', () => {
    expect(archive.recoveries).toEqual([]);
    for (const { id } of archive.listRuns()) {
      const { result } = analyseStoredRun(archive, id);
      expect(result.isPractice).toBe(true);
      expect(result.census.badLineCounts).toEqual({});
      expect(result.outcome).toBe('pass');
    }
    expect(archive.listRuns()).toHaveLength(2);
  });

  it('yield the derived capacity that their bench was built with', () => {
    const law = analyseStoredRun(archive, '2026-11-26-0002').result.delivery?.law;
    if (law === undefined || !law.ok) throw new Error('no law');
    expectWithinStated(law.value.stated.derivedCapacityM3PerRev, TRUTH.derivedCapacityM3PerRev);
  });

  it('show oil from dry', () => {
    const priming = analyseStoredRun(archive, '2026-11-26-0001').result.dryLift?.priming;
    expect(priming?.ok && priming.value.primed).toBe(true);
  });
});
