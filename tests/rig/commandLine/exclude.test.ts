import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { z } from 'zod';
import { openArchive } from '../../../rig/archive/openArchive.ts';
import { type ExcludeOptions, exclude } from '../../../rig/commandLine/exclude.ts';
import type { Speaker } from '../../../rig/commandLine/speaker.ts';
import { codeOf, messageOf } from '../../../rig/errors.ts';
import { runSlipwright } from '../../support/runSlipwright.ts';

const RUN = '2026-11-26-0002';

const analysed = z.object({
  exclusions: z.array(z.object({ person: z.string(), isExcluded: z.boolean(), reason: z.string() })),
  delivery: z.object({
    holds: z.array(
      z.object({
        number: z.number(),
        startS: z.number(),
        endS: z.number(),
        leftOut: z.object({ cause: z.string(), reason: z.string() }).nullable(),
      }),
    ),
    law: z.object({ ok: z.literal(true) }),
  }),
});

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'slipwright-exclude-'));
  const kept = join(folder, 'runs', RUN);
  mkdirSync(kept, { recursive: true });
  cpSync(join(import.meta.dirname, '../../../samples/runs', RUN), kept, { recursive: true });
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function run(...args: readonly string[]) {
  return runSlipwright([...args, '--archive', folder, '--person', 'B. Lotse (invented)']);
}

it('takes a hold out of the fit with its reason, and lets the same stretch back in', async () => {
  const out = await run('exclude', RUN, '--hold', '3', '--reason', 'valve was touched', '--json');
  expect(out.exitCode, out.stderr).toBe(0);
  const without = analysed.parse(JSON.parse(out.stdout));
  const left = without.delivery.holds.filter(({ leftOut }) => leftOut !== null);
  expect(left).toMatchObject([{ number: 3, leftOut: { cause: 'person', reason: 'valve was touched' } }]);
  expect(without.exclusions).toMatchObject([{ person: 'B. Lotse (invented)', isExcluded: true }]);

  const [hold] = left;
  const span = ['--from', String(hold?.startS), '--to', String(hold?.endS)];
  const back = await run('exclude', RUN, ...span, '--reason', 'the mark was of another run', '--back');
  expect(back.exitCode, back.stderr).toBe(0);
  // As a person reads it: thirteen holds, none of them out.
  expect(back.stdout).toMatch(/^14 holds$/m);
  // Nothing that was said before is rewritten.
  const lines = readFileSync(join(folder, 'runs', RUN, 'exclusions.jsonl'), 'utf8')
    .trimEnd()
    .split('\n');
  expect(lines.map((line) => JSON.parse(line).isExcluded)).toEqual([true, false]);
});

const words: string[] = [];
const speaker: Speaker = {
  result: (_document, text) => words.push(text),
  say: () => {},
  progress: () => {},
};

it('prints for people which hold is out, and why; refuses what names no stretch, and writes nothing then', () => {
  const archive = openArchive(folder);
  const said = { reason: 'oil was topped up', person: 'B. Lotse (invented)', back: false };
  const refusalOf = (options: Partial<ExcludeOptions>): string => {
    try {
      exclude(RUN, { ...said, ...options }, archive, speaker);
      return 'done';
    } catch (error) {
      return `${codeOf(error)}: ${messageOf(error)}`;
    }
  };
  expect(refusalOf({ hold: 99 })).toMatch(/^USE: .* has no hold 99: its holds are 1 to 14$/);
  expect(refusalOf({ from: 3 })).toBe('USE: exclude needs --hold, or --from and --to');
  expect(refusalOf({ hold: 1, from: 3, to: 9 })).toBe('USE: exclude needs --hold, or --from and --to');
  expect(refusalOf({ from: 9, to: 3 })).toBe('USE: --from 9 lies not before --to 3');
  expect(archive.readExclusions(RUN)).toEqual([]);
  expect(refusalOf({ hold: 5 })).toBe('done');
  expect(words.join('\n')).toContain('hold 5: oil was topped up');
  archive.close();
});
