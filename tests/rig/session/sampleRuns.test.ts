import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Archive, openArchive } from '../../../rig/archive/openArchive.ts';
import { createPracticeBench } from '../../../rig/practiceBench/createPracticeBench.ts';
import { analyseStoredRun } from '../../../rig/session/analyseStoredRun.ts';
import { dryEvidence } from '../../../rig/session/dryEvidence.ts';
import { accepted } from '../../support/accepted.ts';
import { copySampleRuns, sampleRunIds } from '../../support/samples.ts';
import { expectWithinStated } from '../../support/withinStated.ts';

/** What samples/README.md says of the runs: their bench, the run of each kind, and the last start of the series. */
const PUMPS = [
  {
    name: 'the feed pump',
    bench: { seed: 2026, scenario: 'healthy', pump: 'externalGear' },
    deliveryRun: '2026-11-26-0002',
    blankedRun: '2026-11-26-0003',
    lastStart: '2026-11-26-0008',
  },
  {
    name: 'the return pump',
    bench: { seed: 2027, scenario: 'healthy', pump: 'screw' },
    deliveryRun: '2026-11-26-0009',
    blankedRun: '2026-11-26-0010',
    lastStart: '2026-11-26-0015',
  },
] as const;

describe('the sample runs', () => {
  let folder: string;
  let archive: Archive;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'slipwright-samples-'));
    copySampleRuns(folder, sampleRunIds());
    archive = openArchive(folder);
  });
  afterAll(() => {
    archive.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('are whole, sealed, known as practice by their own journal, and none of them is unfit', () => {
    expect(archive.recoveries).toEqual([]);
    for (const { id } of archive.listRuns()) {
      const { result } = analyseStoredRun(archive, id);
      expect(result.isPractice, id).toBe(true);
      expect(result.census.badLineCounts, id).toEqual({});
      expect(result.findings.filter(({ severity }) => severity !== 'note').map(({ code }) => code)).toEqual([]);
    }
    expect(archive.listRuns()).toHaveLength(15);
  });

  it('show oil from dry', () => {
    const priming = analyseStoredRun(archive, '2026-11-26-0001').result.dryLift?.priming;
    expect(priming?.ok && priming.value.primed).toBe(true);
  });

  describe.each(PUMPS)('of $name', ({ bench, deliveryRun, blankedRun, lastStart }) => {
    const built = createPracticeBench(bench);

    it('yield the derived capacity that its bench was built with, and meet the demands', () => {
      const { delivery, outcome } = analyseStoredRun(archive, deliveryRun).result;
      if (delivery?.law.ok !== true) throw new Error('no law');
      expectWithinStated(delivery.law.value.stated.derivedCapacityM3PerRev, built.truth().derivedCapacityM3PerRev);
      expect(outcome).toBe('pass');
    });

    it('agree with the strip sheet of the pump in every hold', () => {
      const fitted = analyseStoredRun(archive, deliveryRun).result.delivery?.fitted;
      if (!fitted) throw new Error('no law');
      const slip = accepted(fitted.againstTheory.slip);
      expect(slip.holds).toHaveLength(14);
      expect(slip.holds.filter(({ agrees }) => !agrees)).toEqual([]);
    });

    it('hold five drained starts that all brought oil, as one series', () => {
      const series = dryEvidence(archive, lastStart)?.series;
      expect(series?.starts).toHaveLength(5);
      expect(series?.primedStarts).toBe(5);
      // 0.05^(1/5): five of five.
      expect(series?.successRateAtLeast).toBeCloseTo(0.549, 3);
      expect(series?.wetness).toBe('W2');
      expect(series?.warnings).toEqual([]);
    });

    it('fit together, with the capacity of the delivery run, to limits that hold the true ones at both speeds', () => {
      const evidence = dryEvidence(archive, lastStart);
      if (evidence === null) throw new Error('no dry start');
      const together = accepted(evidence.together);
      expect(together.runIds).toEqual([blankedRun, lastStart]);
      expect(together.capacityRunId).toBe(deliveryRun);
      expect(together.limits).toHaveLength(2);
      for (const { speedRevPerS, limitM } of together.limits) {
        built.command(`speed ${(60 * speedRevPerS).toFixed(4)}`);
        const truthM = built.truth().dryLift.limitM;
        expect(limitM.lower).toBeLessThan(truthM);
        expect(limitM.upper).toBeGreaterThan(truthM);
      }
    });
  });
});
