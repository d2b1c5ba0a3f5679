import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { certificateData } from '../../../analysis/certificate/certificateData.ts';
import { type Archive, openArchive } from '../../../rig/archive/openArchive.ts';
import type { FiledCertificate } from '../../../rig/certificate/fileCertificate.ts';
import { createPracticeBench } from '../../../rig/practiceBench/createPracticeBench.ts';
import { fileRunCertificate } from '../../../rig/session/fileRunCertificate.ts';
import { replayCertificate } from '../../../rig/session/replayCertificate.ts';
import { accepted } from '../../support/accepted.ts';
import { runOutsideTool } from '../../support/outsideTool.ts';
import { copySampleRuns, sampleRunIds } from '../../support/samples.ts';

/** What samples/README.md says of the runs: which belong to a pump, and the bench that recorded them. */
const PUMPS = [
  {
    name: 'the feed pump',
    bench: { seed: 2026, scenario: 'healthy', pump: 'externalGear' },
    from: '2026-11-26-0001',
    until: '2026-11-26-0008',
    joined: ['2026-11-26-0003', '2026-11-26-0008'],
    machine: null,
  },
  {
    name: 'the return pump',
    bench: { seed: 2027, scenario: 'healthy', pump: 'screw' },
    from: '2026-11-26-0009',
    until: '2026-11-26-0015',
    joined: ['2026-11-26-0010', '2026-11-26-0015'],
    machine: 'Predicted for the machine, and proven by nobody',
  },
] as const;

describe.each(PUMPS)('a certificate on all sample runs of $name', ({ bench, from, until, joined, machine }) => {
  let folder: string;
  let archive: Archive;
  let filed: FiledCertificate;
  let pdfText: string | null;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'slipwright-dry-series-'));
    process.env.SLIPWRIGHT_KEYS = join(folder, 'keys');
    const ids = sampleRunIds().filter((id) => id >= from && id <= until);
    copySampleRuns(join(folder, 'archive'), ids);
    archive = openArchive(join(folder, 'archive'));
    filed = accepted(await fileRunCertificate(archive, ids, 'W. Anker (invented)'));
    pdfText = runOutsideTool('pdftotext', ['-raw', filed.paths.pdf, '-'])?.output ?? null;
  });
  afterAll(() => {
    archive.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('says that the pump passes, on five drained starts among others', () => {
    expect(filed.data.outcome).toBe('pass');
    const series = filed.data.dryLiftSeries.find(({ wetness }) => wetness === 'W2');
    expect(series?.inWords[0]).toContain('Oil came in 5 of 5 starts from 0.450 m');
  });

  it('holds the limit by lift and blanked starts together, true to the bench, and what each alone says', () => {
    const [together, ...others] = filed.data.dryLiftTogether;
    if (together === undefined) throw new Error('no joint fit');
    expect(others).toEqual([]);
    expect(together.runIds).toEqual(joined);
    expect(together.capacityBasis).toBe('derived');
    const built = createPracticeBench(bench);
    for (const { speedRevPerS, limitM } of together.limits) {
      built.command(`speed ${(60 * speedRevPerS).toFixed(4)}`);
      const truthM = built.truth().dryLift.limitM;
      expect(limitM.lower).toBeLessThan(truthM);
      expect(limitM.upper).toBeGreaterThan(truthM);
    }
    const [blanked, lift] = together.alone;
    expect(together.alone.map(({ kind, runId }) => [kind, runId])).toEqual([
      ['blanked', joined[0]],
      ['lift', joined[1]],
    ]);
    const widthM = (limits: typeof together.limits | undefined | NonNullable<typeof lift>['limits']): number =>
      (limits?.[0]?.limitM.upper ?? Number.NaN) - (limits?.[0]?.limitM.lower ?? Number.NaN);
    expect(widthM(together.limits)).toBeLessThan(widthM(blanked?.limits));
    expect(widthM(together.limits)).toBeLessThan(0.05 * widthM(lift?.limits));
    expect(together.inWords.some((words) => words.startsWith(machine ?? 'Predicted'))).toBe(machine !== null);
  });

  it('prints it on three pages at most', ({ skip }) => {
    if (pdfText === null) return skip();
    const words = pdfText.replace(/\s+/g, ' ');
    expect(words).toContain(`Fitted to runs ${joined.join(' and ')} together, with the derived capacity of run`);
    expect(words).toContain(`Each alone says: the blanked run ${joined[0]}`);
    expect(words).toContain('page 3 of 3');
    if (machine !== null) expect(words).toContain(machine);
  });

  it('sets it in type hardly smaller than the usual', ({ skip }) => {
    const words = runOutsideTool('pdftotext', ['-bbox', filed.paths.pdf, '-'])?.output;
    if (words === undefined) return skip();
    const heightOf = (word: string): number => {
      const [, top, bottom] = new RegExp(`yMin="([\\d.]+)" xMax="[\\d.]+" yMax="([\\d.]+)">${word}<`).exec(words) ?? [];
      return Number(bottom) - Number(top);
    };
    // Names of pairs and the foot of the page are of one style; the foot is never set smaller.
    expect(heightOf('Customer') / heightOf('SPECIMEN,')).toBeGreaterThan(0.919);
  });

  // One of the two is enough: it takes as long as all the rest.
  it.runIf(machine !== null)('comes out the same when it is done anew from the journals', async () => {
    const replay = accepted(await replayCertificate(archive, filed.number));
    expect([replay.numbers, replay.words]).toEqual([[], []]);
  });

  it('is read also as it was before joint fits were told', () => {
    const { dryLiftTogether: _later, ...before } = filed.data;
    expect(certificateData.parse(before).dryLiftTogether).toEqual([]);
  });
});
