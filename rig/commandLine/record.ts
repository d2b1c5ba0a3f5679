import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { RunClosing, RunKind, RunRecord, ZeroCheck } from '../../analysis/records/runRecord.ts';
import type { Archive } from '../archive/openArchive.ts';
import { PROGRAM_VERSION } from '../programVersion.ts';
import { readStoredResult } from '../session/analyseStoredRun.ts';
import { BenchSession } from '../session/benchSession.ts';
import { openPracticeSession } from '../session/openPracticeSession.ts';
import { PRACTICE_OIL, PRACTICE_RUN_SET_UP } from '../session/practiceConditions.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { ModelOptions } from './modelOptions.ts';
import { benchFrom, type Conditions, conditionsFrom, pumpFrom } from './recordsFrom.ts';
import { resultText } from './resultText.ts';
import type { Speaker } from './speaker.ts';
import { WrongUse } from './wrongUse.ts';
import { type ZeroOptions, zeroAsAsked, zeroText } from './zeroOptions.ts';

export type RecordOptions = ModelOptions &
  ZeroOptions & {
    readonly pump: string;
    readonly kind: RunKind;
    readonly label: RunRecord['label'];
    readonly operator: string;
    /** Counts how often the pump was taken off the bench and mounted again. */
    readonly mounting?: number;
    /** A real bench: all three are needed; the practice bench takes other conditions than its own. */
    readonly port?: string;
    readonly bench?: string;
    readonly conditions?: string;
    /** The practice bench instead. */
    readonly practice: boolean;
    /** Stop after so long; without it the run ends with Ctrl-C, or by itself on the practice bench. */
    readonly seconds?: number;
    /** So many runs one after the other, the pump prepared alike before each: on the practice bench alone. */
    readonly repeat: number;
    /** Readings in a second of bench time, of the practice bench. */
    readonly readingsPerS?: number;
  };

const PROGRESS_MS = 500;

/** Waits for whatever ends the run first: itself, the time, Ctrl-C. */
async function untilSealed(session: BenchSession, seconds: number | undefined): Promise<RunClosing> {
  const sealed = new Promise<RunClosing>((resolve) => session.onSealed(resolve));
  const stop = (reason: string) => (): void => {
    session.stopRun(reason).catch(() => {});
  };
  const onInterrupt = stop('stopped with Ctrl-C');
  process.once('SIGINT', onInterrupt);
  const timer = seconds === undefined ? null : setTimeout(stop(`stopped after ${seconds} s`), 1000 * seconds);
  try {
    return await sealed;
  } finally {
    process.off('SIGINT', onInterrupt);
    if (timer !== null) clearTimeout(timer);
  }
}

/** A session at the bench that was asked for, with the conditions of its runs. */
type Opened = Conditions & {
  readonly session: BenchSession;
  readonly bench: BenchRecord;
  readonly path: string;
  readonly close: () => Promise<void>;
};

async function openBench(options: RecordOptions, archive: Archive): Promise<Opened> {
  if (options.practice) {
    const { seed, scenario, speedUp, plant, mounting, readingsPerS } = options;
    const { session, bench, path, close } = await openPracticeSession(archive, {
      seed,
      scenario,
      speedUp,
      ...(plant === undefined ? {} : { plant }),
      ...(mounting === undefined ? {} : { mounting }),
      ...(readingsPerS === undefined ? {} : { readingsPerS }),
    });
    const own = options.conditions === undefined ? null : conditionsFrom(options.conditions);
    return { session, bench, path, close, oil: own?.oil ?? PRACTICE_OIL, setUp: own?.setUp ?? PRACTICE_RUN_SET_UP };
  }
  const { port: path, bench: benchName, conditions } = options;
  if (path === undefined || benchName === undefined || conditions === undefined) {
    throw new WrongUse('record needs --port, --bench and --conditions, or --practice');
  }
  const bench = benchFrom(archive, benchName);
  const { oil, setUp } = conditionsFrom(conditions);
  const port = { path, mustExist: true };
  const session = await BenchSession.open({ archive, bench, port, programVersion: PROGRAM_VERSION });
  return { session, bench, path, close: () => session.close(), oil, setUp };
}

/** The zeros of the channels before the run, where they are asked for: taken, said, and marked. */
async function zeroed(opened: Opened, options: ZeroOptions, speaker: Speaker): Promise<ZeroCheck | null> {
  if (!options.zeroCheck && options.applyZero === undefined) return null;
  const { session, bench, oil, setUp } = opened;
  speaker.say('taking the zeros: shaft at rest, valve open, tubes vented');
  const taken = await session.takeZeroCheck({
    barometerPa: setUp.barometerPa.value,
    oilDensityKgPerM3: oil.densityAt15CKgPerM3,
  });
  const zeroCheck = zeroAsAsked(taken, options.applyZero);
  speaker.say(zeroText(zeroCheck, bench));
  return zeroCheck;
}

/** What a recorded run comes to. */
type Recorded = {
  readonly closing: RunClosing;
  readonly zeroCheck: ZeroCheck | null;
  readonly result: ReturnType<typeof readStoredResult>['result'];
};

/** One run, from the first byte to its result. */
async function recorded(
  { session, path, oil, setUp }: Opened,
  options: RecordOptions,
  zeroCheck: ZeroCheck | null,
  archive: Archive,
  speaker: Speaker,
): Promise<Recorded> {
  const pump = pumpFrom(archive, options.pump);
  const { kind, label, operator, mounting = 1 } = options;
  const run = await session.startRun({ kind, label, operator, pumpId: pump.id, oil, setUp, zeroCheck, mounting });
  speaker.say(`recording run ${run.id} from ${path}; Ctrl-C stops it`);
  const closing = await watched(session, speaker, options.seconds);
  return { closing, zeroCheck, result: readStoredResult(archive, run.id).result };
}

/** `slipwright record`: one run, or on the practice bench several one after the other until one is stopped. */
export async function record(options: RecordOptions, archive: Archive, speaker: Speaker): Promise<ExitCode> {
  const { repeat, practice } = options;
  if (repeat > 1 && !practice) {
    throw new WrongUse('record --repeat goes with --practice: a real pump is prepared anew before every start');
  }
  const opened = await openBench(options, archive);
  try {
    const zeroCheck = await zeroed(opened, options, speaker);
    const all: Recorded[] = [];
    while (all.length < repeat && (all.at(-1)?.closing.ending ?? 'completed') === 'completed') {
      all.push(await recorded(opened, options, zeroCheck, archive, speaker));
    }
    speaker.result(repeat === 1 ? all[0] : all, all.map(({ result }) => resultText(result)).join('\n\n'));
    return EXIT.done;
  } finally {
    await opened.close();
  }
}

async function watched(session: BenchSession, speaker: Speaker, seconds: number | undefined): Promise<RunClosing> {
  const timer = setInterval(() => {
    const { openRun, linesPerS } = session.state();
    if (openRun === null) return;
    const { guide, elapsedS, lineCount } = openRun;
    speaker.progress(
      `${elapsedS.toFixed(0)} s, ${lineCount} lines, ${linesPerS.toFixed(0)}/s; ${guide.stepsDone} of ${guide.stepCount}: ${guide.sentence}`,
    );
  }, PROGRESS_MS);
  try {
    return await untilSealed(session, seconds);
  } finally {
    clearInterval(timer);
  }
}
