import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { PROJECT_FOLDER } from '../projectFolder.ts';
import { NoPtyError } from './noPtyError.ts';
import type { PracticePlant } from './plant.ts';
import { PracticeBenchError } from './practiceBenchError.ts';
import { type PracticeMessage, type PracticeRequest, practiceMessage } from './practiceMessages.ts';
import type { PracticeTruth } from './practiceTruth.ts';
import type { PumpKind } from './pumpKind.ts';
import type { PracticeScenario } from './pumpTruth.ts';
import type { ErrorShape } from './sensors.ts';

export type StartPracticeBenchOptions = {
  readonly seed: number;
  readonly scenario: PracticeScenario;
  /** Bench seconds in a second of the wall. Default 1. */
  readonly speedUp?: number;
  /** Readings in a second of bench time. Default 50. */
  readonly readingsPerS?: number;
  /** As of createPracticeBench. */
  readonly pump?: PumpKind;
  readonly mounting?: number;
  readonly plant?: PracticePlant;
  readonly sensorShape?: ErrorShape;
};

export type RunningPracticeBench = {
  /** Path of the line, to be opened like any serial port. */
  readonly path: string;
  readonly truth: () => Promise<PracticeTruth>;
  /** Ends the process; once ended, does nothing. */
  readonly stop: () => Promise<void>;
};

const PROCESS_FILE = join(PROJECT_FOLDER, 'rig/practiceBench/practiceProcess.ts');
// Resolved from here: the working directory may be anywhere.
const TSX_URL = pathToFileURL(createRequire(import.meta.url).resolve('tsx')).href;

/** The next message that a process sends; rejects if it ends first. */
function nextMessage(child: ChildProcess, kinds: readonly PracticeMessage['kind'][]): Promise<PracticeMessage> {
  return new Promise((resolve, reject) => {
    const onMessage = (raw: unknown): void => {
      const message = practiceMessage.safeParse(raw);
      if (!message.success || !kinds.includes(message.data.kind)) return;
      forget();
      resolve(message.data);
    };
    const onExit = (code: number | null, signal: string | null): void => {
      forget();
      reject(new PracticeBenchError(`the practice bench's process ended (${signal ?? `code ${code}`})`));
    };
    const onError = (cause: Error): void => {
      forget();
      reject(new PracticeBenchError(`the practice bench's process: ${cause.message}`, { cause }));
    };
    const forget = (): void => {
      child.off('message', onMessage);
      child.off('exit', onExit);
      child.off('error', onError);
    };
    child.on('message', onMessage);
    child.on('exit', onExit);
    child.on('error', onError);
  });
}

/**
 * Starts the practice bench in a process of its own, on a pseudo-terminal.
 *
 * @param options - seed, scenario, pace [bench seconds per second], readings [per bench second], what is planted [-]
 * @returns the path of its line, its truth and how to end it
 * @throws NoPtyError (code NO_PTY) where the machine has no pseudo-terminal
 * @throws PracticeBenchError (code PRACTICE_BENCH_GONE) if the process does not start
 */
export async function startPracticeBench(options: StartPracticeBenchOptions): Promise<RunningPracticeBench> {
  const { seed, scenario, speedUp = 1, readingsPerS = 50, mounting } = options;
  const child = fork(
    PROCESS_FILE,
    [
      `--seed=${seed}`,
      `--scenario=${scenario}`,
      `--speed-up=${speedUp}`,
      `--readings-per-s=${readingsPerS}`,
      `--pump=${options.pump ?? 'externalGear'}`,
      `--sensor-shape=${options.sensorShape ?? 'normal'}`,
      `--plant=${JSON.stringify(options.plant ?? {})}`,
      ...(mounting === undefined ? [] : [`--mounting=${mounting}`]),
    ],
    { execArgv: ['--import', TSX_URL], stdio: ['ignore', 'ignore', 'inherit', 'ipc'] },
  );
  const first = await nextMessage(child, ['ready', 'noPty']);
  if (first.kind === 'noPty') throw new NoPtyError(first.why);
  if (first.kind !== 'ready') throw new PracticeBenchError(`the practice bench said ${first.kind} before it was ready`);

  return {
    path: first.path,
    async truth() {
      if (!child.connected) throw new PracticeBenchError('the practice bench has ended: it cannot tell its truth');
      const answer = nextMessage(child, ['truth']);
      child.send({ kind: 'truth' } satisfies PracticeRequest);
      const message = await answer;
      if (message.kind !== 'truth')
        throw new PracticeBenchError(`the practice bench said ${message.kind}, not its truth`);
      return message.truth;
    },
    async stop() {
      if (child.exitCode !== null || child.signalCode !== null) return;
      const ended = once(child, 'exit');
      child.kill('SIGTERM');
      await ended;
    },
  };
}
