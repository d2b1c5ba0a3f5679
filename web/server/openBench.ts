import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { Archive } from '../../rig/archive/openArchive.ts';
import { benchFrom } from '../../rig/commandLine/recordsFrom.ts';
import { PROGRAM_VERSION } from '../../rig/programVersion.ts';
import { BenchSession } from '../../rig/session/benchSession.ts';
import { installSampleRecords } from '../../rig/session/sampleRecords.ts';
import { startPractice } from '../../rig/session/startPractice.ts';
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
  const bench = installSampleRecords(archive);
  const { seed, scenario, speedUp } = options;
  const practice = await startPractice({ seed, scenario, speedUp });
  try {
    const session = await BenchSession.open({
      archive,
      bench,
      port: practice.port,
      programVersion: PROGRAM_VERSION,
    });
    const close = async (): Promise<void> => {
      await session.close();
      await practice.stop();
    };
    const words = `practice bench (${scenario}, speed-up ${speedUp}, seed ${seed}) on ${practice.port.path}`;
    return { session, bench, isPractice: true, words, close };
  } catch (error) {
    await practice.stop();
    throw error;
  }
}

/** Opens the real bench that was named, else starts the practice bench. */
export function openBench(archive: Archive, options: StartOptions): Promise<OpenedBench> {
  return options.portPath === undefined || options.bench === undefined
    ? openPracticeBench(archive, options)
    : openRealBench(archive, options.portPath, options.bench);
}
