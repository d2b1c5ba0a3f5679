import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export const PROGRAM = fileURLToPath(new URL('../../rig/slipwright.mjs', import.meta.url));

export type Ended = { readonly exitCode: number | null; readonly stdout: string; readonly stderr: string };

/** Runs the command line as a person would, in a process of its own. */
export function runSlipwright(
  args: readonly string[],
  environment: Readonly<Record<string, string>> = {},
): Promise<Ended> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [PROGRAM, ...args], {
      env: { ...process.env, ...environment },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let stdout = '';
    let stderr = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      stdout += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      stderr += text;
    });
    child.once('error', reject);
    child.once('close', (exitCode) => resolve({ exitCode, stdout, stderr }));
  });
}
