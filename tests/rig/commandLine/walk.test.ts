import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { practiceTruth } from '../../../rig/practiceBench/practiceTruth.ts';
import { PROGRAM, runSlipwright } from '../../support/runSlipwright.ts';

const recorded = z.object({
  closing: z.object({ runId: z.string(), ending: z.string() }),
  result: z.object({ outcome: z.string(), isPractice: z.literal(true) }),
});
const filed = z.object({
  filed: z.literal(true),
  number: z.string(),
  paths: z.object({ pdf: z.string(), json: z.string() }),
});

describe('the walk along the command line', () => {
  let folder: string;
  let archive: string;
  let keys: Record<string, string>;
  let certificate: z.infer<typeof filed>;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'slipwright-walk-'));
    archive = join(folder, 'archive');
    keys = { SLIPWRIGHT_KEYS: join(folder, 'keys') };
    const ended = await runSlipwright([
      ...['record', '--practice', '--speed-up', '20', '--seed', '5', '--kind', 'dryLift'],
      ...['--pump', join(import.meta.dirname, '../../../samples/pumps/dredger-feed-pump.json')],
      ...['--operator', 'invented', '--archive', archive, '--json'],
    ]);
    expect(ended.exitCode, ended.stderr).toBe(0);
    const run = recorded.parse(JSON.parse(ended.stdout));
    expect(run.result.outcome).toBe('pass');
    const certified = await runSlipwright(
      ['certify', run.closing.runId, '--signatory', 'invented', '--archive', archive, '--json'],
      keys,
    );
    expect(certified.exitCode, certified.stderr).toBe(0);
    certificate = filed.parse(JSON.parse(certified.stdout));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('ends with 0 on a whole certificate of a key that is known here', async () => {
    const ended = await runSlipwright(['verify', certificate.paths.pdf, certificate.paths.json], keys);
    expect(ended.exitCode).toBe(0);
    expect(ended.stdout).toContain('whole');
    expect(ended.stdout).toContain('cannot be known from the file');
  });

  it('refuses a reason without what it is for, and the other way round', async () => {
    const certify = ['certify', 'any-run', '--signatory', 'invented', '--archive', archive];
    for (const half of [
      ['--replaces', certificate.number],
      ['--reason', 'misspelt'],
    ]) {
      const ended = await runSlipwright([...certify, ...half], keys);
      expect(ended.exitCode, ended.stderr).toBe(2);
    }
  });

  it('ends with 5 where the key is not known, and still says what was signed', async () => {
    const elsewhere = { SLIPWRIGHT_KEYS: join(folder, 'no-keys') };
    const ended = await runSlipwright(['verify', certificate.paths.pdf, '--json'], elsewhere);
    expect(ended.exitCode).toBe(5);
    expect(JSON.parse(ended.stdout)).toMatchObject([{ state: 'whole', number: certificate.number, isKeyKnown: false }]);
  });

  it('ends with 4 on a certificate with one changed byte', async () => {
    const changed = join(folder, 'changed.pdf');
    const bytes = readFileSync(certificate.paths.pdf);
    const middle = Math.floor(bytes.length / 2);
    bytes[middle] = (bytes[middle] ?? 0) ^ 1;
    writeFileSync(changed, bytes);
    const ended = await runSlipwright(['verify', changed], keys);
    expect(ended.exitCode).toBe(4);
    expect(ended.stdout).toContain('changed');
  });

  it('ends with 3 on a certificate that its run does not allow', async () => {
    const ended = await runSlipwright(
      ['certify', '2020-01-01-0001', '--signatory', 'invented', '--archive', archive],
      keys,
    );
    expect(ended.exitCode).toBe(3);
    expect(ended.stderr).toContain('2020-01-01-0001');
  });

  it('withdraws the certificate, after which it verifies as whole with 6, and cannot be withdrawn again', async () => {
    const words = ['--signatory', 'invented', '--reason', 'wrong pump on the bench', '--archive', archive];
    const withdrawn = await runSlipwright(['withdraw', certificate.number, ...words, '--json'], keys);
    expect(withdrawn.exitCode, withdrawn.stderr).toBe(0);
    expect(JSON.parse(withdrawn.stdout)).toMatchObject({ withdrawn: true, number: certificate.number });
    const ended = await runSlipwright(['verify', certificate.paths.pdf, '--archive', archive], keys);
    expect(ended.exitCode).toBe(6);
    expect(ended.stdout).toContain('wrong pump on the bench');
    expect((await runSlipwright(['withdraw', certificate.number, ...words], keys)).exitCode).toBe(3);
  });
});

it('runs a practice bench until Ctrl-C and prints what it was built with', async () => {
  const child = spawn(process.execPath, [PROGRAM, 'practice', '--seed', '9', '--truth', '--json'], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let stdout = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    stdout += text;
  });
  const [words] = await once(child.stderr.setEncoding('utf8'), 'data');
  expect(words).toMatch(/practice bench on \/dev\//);
  child.kill('SIGINT');
  const [exitCode] = await once(child, 'close');
  expect(exitCode).toBe(0);
  expect(practiceTruth.parse(JSON.parse(stdout).truth).scenario).toBe('healthy');
});
