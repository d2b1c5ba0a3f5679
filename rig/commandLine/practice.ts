import { startPracticeBench } from '../practiceBench/startPracticeBench.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { ModelOptions } from './modelOptions.ts';
import type { Speaker } from './speaker.ts';

export type PracticeOptions = ModelOptions & {
  readonly readingsPerS: number;
  /** Print what the bench was built with, at the end. */
  readonly truth: boolean;
};

/** `slipwright practice`: a practice bench on a pseudo-terminal of its own, until Ctrl-C. */
export async function practice(options: PracticeOptions, speaker: Speaker): Promise<ExitCode> {
  const bench = await startPracticeBench(options);
  try {
    const told = new Promise<void>((resolve) => {
      process.once('SIGINT', () => resolve());
      process.once('SIGTERM', () => resolve());
    });
    speaker.say(`practice bench on ${bench.path}, speed-up ${options.speedUp}; Ctrl-C ends it`);
    await told;
    const document = { path: bench.path, ...(options.truth ? { truth: await bench.truth() } : {}) };
    speaker.result(document, options.truth ? JSON.stringify(document, null, 2) : 'the practice bench has ended');
    return EXIT.done;
  } finally {
    await bench.stop();
  }
}
