import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { runResultSchema } from '../../../analysis/resultSchema/runResultSchema.ts';
import { runSlipwright } from '../../support/runSlipwright.ts';

const recorded = z.object({ closing: z.object({ runId: z.string() }) });
const aMap = z.object({
  oilTemperatureK: z.number(),
  speedsRevPerS: z.array(z.number()),
  derivedEfficiency: z.object({ values: z.array(z.number()) }),
  isExtrapolated: z.array(z.boolean()),
});

/** Runs a command on the archive and takes its JSON document. */
async function documentOf(archive: string, args: readonly string[]): Promise<unknown> {
  const ended = await runSlipwright([...args, '--archive', archive, '--json']);
  expect(ended.exitCode, ended.stderr).toBe(0);
  return JSON.parse(ended.stdout);
}

describe('a delivery run along the command line (practice bench, seed 8)', () => {
  let folder: string;
  let archive: string;
  let runId: string;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'slipwright-delivery-'));
    archive = join(folder, 'archive');
    const run = await documentOf(archive, [
      ...['record', '--practice', '--speed-up', '40', '--seed', '8'],
      ...['--pump', join(import.meta.dirname, '../../../samples/pumps/dredger-feed-pump.json')],
      ...['--operator', 'invented'],
    ]);
    runId = recorded.parse(run).closing.runId;
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('is analysed into JSON that its own published schema allows', async () => {
    const schema = await runSlipwright(['schema']);
    const isValid = new Ajv2020({ formats: { 'date-time': true } }).compile(JSON.parse(schema.stdout));
    isValid(await documentOf(archive, ['analyse', runId]));
    expect(isValid.errors).toBeNull();
  });

  it('is told to people with where the uncertainty of every judged number comes from', async () => {
    const ended = await runSlipwright(['analyse', runId, '--archive', archive]);
    expect(ended.exitCode).toBe(0);
    expect(ended.stdout).toMatch(/derived capacity V_i +\d+\.\d+ ± \d+\.\d+ cm³\/rev\n +\d+\.\d % {2}flow, gain/);
    expect(ended.stdout).toMatch(/slip +\d+\.\d+ ± \d+\.\d+ l\/min/);
  });

  it('is gone through by trials where they are asked for: the same seed, the same answer', async () => {
    const byTrials = async (seed: string) =>
      runResultSchema.parse(await documentOf(archive, ['analyse', runId, '--monte-carlo', '2000', '--seed', seed]))
        .delivery?.fitted?.monteCarlo;
    const [first, again, other] = [await byTrials('3'), await byTrials('3'), await byTrials('4')];
    expect(first).toMatchObject({ trials: 2000, seed: 3 });
    expect(again).toEqual(first);
    expect(other?.derivedCapacityM3PerRev.mean).not.toBe(first?.derivedCapacityM3PerRev.mean);
  });

  it('is mapped at the oil and temperature asked for: thinner oil, less efficiency, and marked as beyond the measured', async () => {
    const mapped = async (...options: readonly string[]) =>
      aMap.parse(await documentOf(archive, ['map', runId, ...options]));
    const cool = await mapped('--oil-temperature', '45');
    const hot = await mapped('--oil-temperature', '80');
    const thin = await mapped('--oil-temperature', '80', '--grade', '32');
    const corner = ({ derivedEfficiency }: z.infer<typeof aMap>): number => derivedEfficiency.values.at(-1) ?? 0;
    expect(cool.oilTemperatureK).toBeCloseTo(318.15, 9);
    expect(corner(hot)).toBeLessThan(corner(cool));
    expect(corner(thin)).toBeLessThan(corner(hot));
    expect(cool.isExtrapolated.at(-1)).toBe(false);
    expect(hot.isExtrapolated.every(Boolean)).toBe(true);
  });

  it('refuses a map of a grade that there is not, and of a run that there is not', async () => {
    const noGrade = await runSlipwright([
      'map',
      runId,
      '--oil-temperature',
      '80',
      '--grade',
      '33',
      '--archive',
      archive,
    ]);
    expect(noGrade.exitCode).toBe(2);
    expect(noGrade.stderr).toContain('has no grade VG 33');
    const noRun = await runSlipwright(['map', '2020-01-01-0001', '--oil-temperature', '80', '--archive', archive]);
    expect(noRun.exitCode).toBe(3);
  });
});
