import type { PracticeModel } from '../journal/messages.ts';
import { NoPtyError } from '../practiceBench/noPtyError.ts';
import { type StartPracticeBenchOptions, startPracticeBench } from '../practiceBench/startPracticeBench.ts';

/** A practice bench that can be opened: behind a pseudo-terminal, or as a model inside the recorder where there is none. */
export type StartedPractice = {
  readonly port: { readonly path: string; readonly practiceModel?: PracticeModel; readonly mustExist?: boolean };
  readonly stop: () => Promise<void>;
};

export async function startPractice(options: StartPracticeBenchOptions): Promise<StartedPractice> {
  try {
    const bench = await startPracticeBench(options);
    return { port: { path: bench.path, mustExist: true }, stop: bench.stop };
  } catch (error) {
    if (!(error instanceof NoPtyError)) throw error;
    return { port: { path: 'practice', practiceModel: options }, stop: async () => {} };
  }
}
