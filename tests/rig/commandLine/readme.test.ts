import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { openArchive } from '../../../rig/archive/openArchive.ts';
import { resultText } from '../../../rig/commandLine/resultText.ts';
import { analyseStoredRun } from '../../../rig/session/analyseStoredRun.ts';
import { copySampleRuns } from '../../support/samples.ts';

const PROJECT = fileURLToPath(new URL('../../../', import.meta.url));

it('the README shows what the sample delivery run says, line by line', () => {
  const folder = mkdtempSync(join(tmpdir(), 'slipwright-readme-'));
  copySampleRuns(folder, ['2026-11-26-0002']);
  const archive = openArchive(folder);
  try {
    const said = resultText(analyseStoredRun(archive, '2026-11-26-0002').result).split('\n');
    const readme = readFileSync(join(PROJECT, 'README.md'), 'utf8');
    const shown = readme.split('```\nrun 2026-11-26-0002')[1]?.split('\n```')[0]?.split('\n').slice(1) ?? [];
    expect(shown.length).toBeGreaterThan(40);
    // In their order; '…' stands for what is left out.
    let next = 1;
    for (const line of shown.filter((entry) => entry !== '…')) {
      const place = said.indexOf(line, next);
      expect(place, line).toBeGreaterThan(0);
      next = place + 1;
    }
    expect(said[0]).toBe('run 2026-11-26-0002: pass');
  } finally {
    archive.close();
    rmSync(folder, { recursive: true, force: true });
  }
});
