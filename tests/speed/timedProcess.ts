import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

import { median } from 'simple-statistics';
import { z } from 'zod';

export type ProcessTime = {
  /** From start to end. */
  readonly wallS: number;
  /** Of the processor, all threads together. */
  readonly processorS: number;
  readonly peakMB: number;
  readonly output: string;
};

const REPORTER = new URL('./reportUsage.mjs', import.meta.url).href;
/** Ten thousand certificates take some twelve. */
const MOST_SAID_BYTES = 64e6;
/** Times in microseconds, memory in kibibytes. */
const usage = z.looseObject({ userCPUTime: z.number(), systemCPUTime: z.number(), maxRSS: z.number() });

/**
 * Runs a Node program to its end, as a person would.
 *
 * @param args - program and arguments [-]
 * @param folder - takes a report of what it used [-]
 * @throws Error with what the program said, if it ends with another code than 0
 */
export function timedProcess(args: readonly string[], folder: string): ProcessTime {
  const report = join(folder, 'usage.json');
  const begunAtMs = performance.now();
  const { status, stdout, stderr } = spawnSync(process.execPath, ['--import', REPORTER, ...args], {
    encoding: 'utf8',
    maxBuffer: MOST_SAID_BYTES,
    env: { ...process.env, REPORT_USAGE_TO: report },
  });
  const wallS = (performance.now() - begunAtMs) / 1e3;
  if (status !== 0) throw new Error(`node ${args.join(' ')} ended with ${status}: ${stderr}`);
  const { userCPUTime, systemCPUTime, maxRSS } = usage.parse(JSON.parse(readFileSync(report, 'utf8')));
  return {
    wallS,
    processorS: (userCPUTime + systemCPUTime) / 1e6,
    peakMB: (maxRSS * 1024) / 1e6,
    output: stdout,
  };
}

/** Medians of a program that is run several times. */
export function medianProcess(times: number, run: () => ProcessTime): ProcessTime {
  const runs = Array.from({ length: times }, run);
  return {
    wallS: median(runs.map(({ wallS }) => wallS)),
    processorS: median(runs.map(({ processorS }) => processorS)),
    peakMB: median(runs.map(({ peakMB }) => peakMB)),
    output: runs[0]?.output ?? '',
  };
}

/** Median time of a piece of work in this process [s]. */
export function medianS(times: number, work: () => unknown): number {
  return median(Array.from({ length: times }, () => timed(work).wallS));
}

/**
 * Median time that a piece of work takes of itself, whatever else the machine does: by the clock, or, where that is less, by what
 * all threads of this process computed, those included that compile beside it [s].
 */
export function medianComputedS(times: number, work: () => unknown): number {
  return median(
    Array.from({ length: times }, () => {
      const { wallS, computedS } = timed(work);
      return Math.min(wallS, computedS);
    }),
  );
}

function timed(work: () => unknown): { readonly wallS: number; readonly computedS: number } {
  const before = process.cpuUsage();
  const begunAtMs = performance.now();
  work();
  const wallS = (performance.now() - begunAtMs) / 1e3;
  const { user, system } = process.cpuUsage(before);
  return { wallS, computedS: (user + system) / 1e6 };
}
