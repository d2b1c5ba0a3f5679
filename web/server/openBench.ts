import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { Archive } from '../../rig/archive/openArchive.ts';
import { benchFrom } from '../../rig/commandLine/recordsFrom.ts';
import { PROGRAM_VERSION } from '../../rig/programVersion.ts';
import { BenchSession } from '../../rig/session/benchSession.ts';
import { openPracticeSession } from '../../rig/session/openPracticeSession.ts';
import type { StartOptions } from './startOptions.ts';

/** The bench that this program listens to, and how to end what was started for it. */
export type OpenedBench = {
  readonly session: BenchSession;
  readonly bench: BenchRecord;
  readonly isPractice: boolean;
  /** In words, for the terminal. */
  readonly words: string;
  readonly close: () => Promise<void>;
};

async function openRealBench(archive: Archive, path: string, idOrFile: string): Promise<OpenedBench> {
  const bench = benchFrom(archive, idOrFile);
  const port = { path, mustExist: true };
  const session = await BenchSession.open({ archive, bench, port, programVersion: PROGRAM_VERSION });
  const words = `listening to ${bench.name} on ${path}; nothing is ever written to it`;
  return { session, bench, isPractice: false, words, close: () => session.close() };
}

async function openPracticeBench(archive: Archive, options: StartOptions): Promise<OpenedBench> {
  const { seed, scenario, speedUp } = options;
  const { session, bench, path, close } = await openPracticeSession(archive, { seed, scenario, speedUp });
  const words = `practice bench (${scenario}, speed-up ${speedUp}, seed ${seed}) on ${path}`;
  return { session, bench, isPractice: true, words, close };
}

/** Opens the real bench that was named, else starts the practice bench. */
export function openBench(archive: Archive, options: StartOptions): Promise<OpenedBench> {
  return options.portPath === undefined || options.bench === undefined
    ? openPracticeBench(archive, options)
    : openRealBench(archive, options.portPath, options.bench);
}
