import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { Archive } from '../archive/openArchive.ts';
import type { StartPracticeBenchOptions } from '../practiceBench/startPracticeBench.ts';
import { PROGRAM_VERSION } from '../programVersion.ts';
import { BenchSession } from './benchSession.ts';
import { installSampleRecords } from './sampleRecords.ts';
import { startPractice } from './startPractice.ts';

export type PracticeSession = {
  readonly session: BenchSession;
  readonly bench: BenchRecord;
  readonly path: string;
  /** Ends session and practice bench. */
  readonly close: () => Promise<void>;
};

/** The practice bench announces itself once a second; before that it is not known for one, and nothing is written to it. */
async function untilGreeted(session: BenchSession): Promise<void> {
  while (session.state().practice === null) {
    await new Promise<void>((resolve) => {
      const forget = session.onState(() => {
        forget();
        resolve();
      });
    });
  }
}

/**
 * Starts a practice bench and a session at it, ready for a run.
 *
 * @param archive - where runs go; the sample records are put into it [-]
 * @param options - seed, scenario and pace of the practice bench [-]
 */
export async function openPracticeSession(
  archive: Archive,
  options: StartPracticeBenchOptions,
): Promise<PracticeSession> {
  const bench = installSampleRecords(archive);
  const practice = await startPractice(options);
  let session: BenchSession | null = null;
  try {
    session = await BenchSession.open({ archive, bench, port: practice.port, programVersion: PROGRAM_VERSION });
    await untilGreeted(session);
    const opened = session;
    const close = async (): Promise<void> => {
      await opened.close();
      await practice.stop();
    };
    return { session, bench, path: practice.port.path, close };
  } catch (error) {
    await session?.close();
    await practice.stop();
    throw error;
  }
}
