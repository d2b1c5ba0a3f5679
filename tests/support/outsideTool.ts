import { spawnSync } from 'node:child_process';

export type ToolRun = { readonly exitCode: number | null; readonly output: string };

/**
 * Runs a program of somebody else as a second opinion. Where it is not installed that is said aloud, and null returned.
 */
export function runOutsideTool(program: string, args: readonly string[]): ToolRun | null {
  const ran = spawnSync(program, args, { encoding: 'utf8' });
  if (ran.error !== undefined) {
    console.warn(
      `NO SECOND OPINION: ${program} is not installed, so its cross-check did not run (${ran.error.message})`,
    );
    return null;
  }
  return { exitCode: ran.status, output: ran.stdout + ran.stderr };
}
