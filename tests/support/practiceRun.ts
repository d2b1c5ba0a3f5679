import { ReadingWindow } from '../../analysis/guide/readingWindow.ts';
import { createRunGuide } from '../../analysis/guide/runGuide.ts';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { OilRecord } from '../../analysis/records/oilRecord.ts';
import type { PumpRecord } from '../../analysis/records/pumpRecord.ts';
import type { RunKind, RunRecord, SetUp } from '../../analysis/records/runRecord.ts';
import { type DecodedRun, decodeJournal } from '../../rig/decode/decodeJournal.ts';
import { createLineDecoder } from '../../rig/decode/lineDecoder.ts';
import { formatJournalRecord } from '../../rig/journal/journalRecord.ts';
import {
  createPracticeBench,
  type PracticeBench,
  type PracticeBenchOptions,
} from '../../rig/practiceBench/createPracticeBench.ts';
import type { PumpKind } from '../../rig/practiceBench/pumpKind.ts';
import type { PracticeScenario } from '../../rig/practiceBench/pumpTruth.ts';
import type { ErrorShape } from '../../rig/practiceBench/sensors.ts';
import { practiceCommand } from '../../rig/session/practiceCommands.ts';
import { PRACTICE_OIL, PRACTICE_RUN_SET_UP } from '../../rig/session/practiceConditions.ts';
import { readingRowOf } from '../../rig/session/readingRowOf.ts';
import { internalGearPump } from './internalGearPump.ts';
import { sampleBench, samplePump } from './samples.ts';
import { sweptVolumeM3PerRevOf } from './sweptVolumeOf.ts';

/** What really happened, noise-free, ten times a bench second. */
export type TrueMoment = { readonly atS: number; readonly flowM3PerS: number; readonly speedRevPerS: number };

export type PracticeRun = {
  readonly run: RunRecord;
  readonly decoded: DecodedRun;
  readonly bench: PracticeBench;
  readonly trueMoments: readonly TrueMoment[];
};

/** A command to the practice bench at a time of the run. */
export type TimedCommand = { readonly atS: number; readonly command: string };

/** What really stands on the bench, and what its papers say, where that is not the sample. */
export type PracticeRunOptions = Pick<
  PracticeBenchOptions,
  'plant' | 'sensorShape' | 'pump' | 'mounting' | 'readingsPerS' | 'setUp'
> & {
  readonly runSetUp?: SetUp;
  readonly oil?: OilRecord;
  readonly benchRecord?: BenchRecord;
  readonly pumpRecord?: PumpRecord;
  /** How often the guide looks; the answer hardly depends on it, the time it takes does. Default 0.1 s. */
  readonly lookEveryS?: number;
  /** Commands in place of the guide's. */
  readonly script?: readonly TimedCommand[];
  /** End of a scripted run; default a second after its last command. */
  readonly endS?: number;
};

const STEP_S = 0.1;
const LONGEST_RUN_S = 600;

/** The record that goes with each practice pump. */
function practicePumpRecord(kind: PumpKind): PumpRecord {
  switch (kind) {
    case 'externalGear':
      return samplePump('dredger-feed-pump');
    case 'screw':
      return samplePump('dredger-return-pump');
    case 'internalGear':
      return internalGearPump();
  }
}

/** The sample bench with its errors stated in the shape from which they are drawn. */
export function practiceBenchRecord(shape: ErrorShape): BenchRecord {
  const bench = sampleBench();
  return {
    ...bench,
    channels: bench.channels.map((channel) => {
      const { calibration } = channel;
      if (calibration === null) return channel;
      const { gain, offset } = calibration;
      return { ...channel, calibration: { ...calibration, gain: { ...gain, shape }, offset: { ...offset, shape } } };
    }),
  };
}

/** A dry start at a speed, watched for so long from two seconds of rest on; blanked or against its pipe. */
export function dryStartScript(speedRPerMin: number, watchS: number, isBlanked = false): readonly TimedCommand[] {
  return [
    ...['speed 0', 'dry', 'valve 1', `blank ${isBlanked ? 1 : 0}`].map((command) => ({ atS: 0, command })),
    { atS: 2, command: `speed ${speedRPerMin}` },
    { atS: 2 + watchS, command: 'speed 0' },
  ];
}

/** What tells the bench what to do, step by step; done when it says so. */
type Director = {
  readonly commands: (elapsedS: number, window: ReadingWindow) => readonly string[];
  readonly isFinished: () => boolean;
};

function scripted(script: readonly TimedCommand[], endS: number | undefined): Director {
  const lastS = Math.max(0, ...script.map(({ atS }) => atS));
  let toldUpToS = -1;
  return {
    commands(elapsedS) {
      // A thousandth: tenths do not add up to whole numbers.
      const due = script.filter(({ atS }) => atS > toldUpToS && atS <= elapsedS + 1e-3);
      toldUpToS = Math.max(toldUpToS, elapsedS + 1e-3);
      return due.map(({ command }) => command);
    },
    isFinished: () => toldUpToS >= (endS === undefined ? lastS : endS - 1),
  };
}

function guided(kind: RunKind, pump: PumpRecord, bench: BenchRecord, setUp: SetUp): Director {
  const guide = createRunGuide({
    kind,
    pump,
    bench,
    barometerPa: setUp.barometerPa.value,
    sweptVolumeM3PerRev: sweptVolumeM3PerRevOf(pump),
    deliveryLineVolume: setUp.deliveryLineVolumeM3,
    wetness: setUp.wetness,
    patienceS: 45,
  });
  let hasBegun = false;
  return {
    commands(_elapsedS, window) {
      const actions = hasBegun ? guide.look(window) : guide.begin();
      hasBegun = true;
      return actions.map(practiceCommand);
    },
    isFinished: () => guide.state().isFinished,
  };
}

/**
 * The guide, or a script, and the practice bench left to themselves, in process: no port, no clock but the bench's own.
 */
export function recordPractice(
  kind: RunKind,
  scenario: PracticeScenario,
  seed: number,
  options: PracticeRunOptions = {},
): PracticeRun {
  const {
    benchRecord,
    pumpRecord,
    runSetUp: setUp = PRACTICE_RUN_SET_UP,
    oil = PRACTICE_OIL,
    script,
    endS,
    lookEveryS = STEP_S,
    ...model
  } = options;
  const bench = createPracticeBench({ seed, scenario, ...model });
  const record = benchRecord ?? practiceBenchRecord(model.sensorShape ?? 'normal');
  const pump = pumpRecord ?? practicePumpRecord(model.pump ?? 'externalGear');
  const barometerPa = setUp.barometerPa.value;
  const director = script === undefined ? guided(kind, pump, record, setUp) : scripted(script, endS);
  const decoder = createLineDecoder(record, barometerPa);
  const window = new ReadingWindow(60);
  const records: string[] = [];
  const trueMoments: TrueMoment[] = [];

  for (const command of director.commands(0, window)) bench.command(command);
  let afterFinishS = 0;
  let lookedS = 0;
  for (let elapsedS = 0; elapsedS < LONGEST_RUN_S && afterFinishS < 1; elapsedS += STEP_S) {
    for (const sentence of bench.step(STEP_S)) {
      const line = { monotonicUs: Math.round(elapsedS * 1e6), bytes: sentence.replace(/\r\n$/, ''), fault: null };
      records.push(formatJournalRecord(line));
      if (script !== undefined) continue;
      const decoded = decoder.push(line);
      if (decoded.kind === 'reading') window.push(readingRowOf(decoded.row));
    }
    const { elapsedS: atS, portFlowM3PerS: flowM3PerS, speedRevPerS } = bench.state();
    trueMoments.push({ atS, flowM3PerS, speedRevPerS });
    if (atS - lookedS >= lookEveryS - 1e-6) {
      lookedS = atS;
      for (const command of director.commands(atS, window)) bench.command(command);
    }
    if (director.isFinished()) afterFinishS += STEP_S;
  }
  const run: RunRecord = {
    format: 'slipwright.run/1',
    id: `practice-${kind.toLowerCase()}-${seed}`,
    kind,
    label: 'as rebuilt',
    startedAtUtc: '2026-06-01T08:00:00Z',
    startedMonotonicUs: 0,
    source: { kind: 'port', path: 'in process' },
    pump,
    bench: record,
    oil,
    setUp,
    zeroCheck: null,
    stripSheet: null,
    mounting: model.mounting ?? 1,
    operator: 'test',
    programVersion: 'test',
  };
  return { run, decoded: decodeJournal(records.join(''), record, barometerPa), bench, trueMoments };
}
