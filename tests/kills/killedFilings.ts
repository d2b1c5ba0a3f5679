import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { checkArchive } from '../../rig/archive/check/checkArchive.ts';
import { openArchive } from '../../rig/archive/openArchive.ts';
import { filedNumbers } from '../../rig/certificate/certificateFolder.ts';
import { uniform } from '../support/random.ts';

const FILER = fileURLToPath(new URL('filer.ts', import.meta.url));

export type Filer = { readonly child: ChildProcess; readonly said: string[]; readonly ended: Promise<string> };

/** Starts a process that files `count` times on a run of an archive. */
export function startFiler(directory: string, runId: string, count: number): Filer {
  const child = spawn(process.execPath, ['--import', 'tsx', FILER, directory, runId, String(count)], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const said: string[] = [];
  let torn = '';
  let trouble = '';
  child.stdout?.setEncoding('utf8').on('data', (text: string) => {
    const lines = `${torn}${text}`.split('\n');
    torn = lines.pop() ?? '';
    said.push(...lines);
  });
  child.stderr?.setEncoding('utf8').on('data', (text: string) => {
    trouble += text;
  });
  const ended = new Promise<string>((resolve) => child.once('close', () => resolve(trouble)));
  return { child, said, ended };
}

async function until(isSo: () => boolean, { child }: Filer): Promise<void> {
  while (!isSo() && child.exitCode === null && child.signalCode === null) await delay(1);
}

/** What was wrong after a kill; empty: nothing. */
export type KillReport = { readonly wrong: readonly string[]; readonly acknowledged: number; readonly within: boolean };

/**
 * Kills a filing process with SIGKILL at a random moment, every second one while files are being made ready, and looks at what
 * is left: before anybody opens the archive, and after.
 *
 * @param directory - the archive [-]
 * @param runId - of a run in it that was analysed [-]
 * @param next - random numbers from 0 to 1 [-]
 */
async function killOnce(directory: string, runId: string, next: () => number): Promise<KillReport> {
  const filer = startFiler(directory, runId, 1000);
  await until(() => filer.said.includes('ready'), filer);
  await delay(next() * 600);
  const isWithin = next() < 0.5;
  if (isWithin) {
    await until(() => readdirSync(join(directory, 'filing')).length > 0, filer);
    const untilMs = performance.now() + next() * 8;
    while (performance.now() < untilMs);
  }
  filer.child.kill('SIGKILL');
  const trouble = await filer.ended;
  const wrong: string[] = trouble === '' ? [] : [trouble];
  const look = async (when: string): Promise<void> => {
    const { flaws } = await checkArchive(directory);
    wrong.push(
      ...flaws.filter(({ severity }) => severity === 'wrong').map(({ file, text }) => `${when}, ${file}: ${text}`),
    );
  };
  if (readdirSync(join(directory, 'filing')).length === 0) await look('as it was left');
  openArchive(directory).close();
  await look('opened again');
  if (readdirSync(join(directory, 'filing')).length > 0) wrong.push('something is left of a filing');
  const filed = new Set(filedNumbers(directory));
  for (const line of filer.said) {
    const [what, name = ''] = line.split(' ');
    const isThere =
      what === 'certificate'
        ? filed.has(name)
        : existsSync(join(directory, 'pumps/dredger-return-pump', `${name}.json`));
    if (what !== 'ready' && !isThere) wrong.push(`${line} was acknowledged and is not there`);
  }
  return { wrong, acknowledged: filer.said.length - 1, within: isWithin };
}

/** Kills so many filings, one after the other, in one archive. */
export async function killFilings(
  directory: string,
  runId: string,
  kills: number,
  seed: number,
): Promise<readonly KillReport[]> {
  const next = uniform(seed);
  const reports: KillReport[] = [];
  for (let kill = 0; kill < kills; kill += 1) reports.push(await killOnce(directory, runId, next));
  return reports;
}
