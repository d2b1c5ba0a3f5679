import { ReadingWindow } from '../../analysis/guide/readingWindow.ts';
import { createRunGuide } from '../../analysis/guide/runGuide.ts';
import type { RunKind, RunRecord } from '../../analysis/records/runRecord.ts';
import { type DecodedRun, decodeJournal } from '../../rig/decode/decodeJournal.ts';
import { createLineDecoder } from '../../rig/decode/lineDecoder.ts';
import { formatJournalRecord } from '../../rig/journal/journalRecord.ts';
import { createPracticeBench, type PracticeBench } from '../../rig/practiceBench/createPracticeBench.ts';
import type { PracticeScenario } from '../../rig/practiceBench/pumpTruth.ts';
import { practiceCommand } from '../../rig/session/practiceCommands.ts';
import { PRACTICE_OIL, PRACTICE_RUN_SET_UP } from '../../rig/session/practiceConditions.ts';
import { readingRowOf } from '../../rig/session/readingRowOf.ts';
import { sampleBench, samplePump } from './samples.ts';

/** What really happened, noise-free, ten times a bench second. */
export type TrueMoment = { readonly atS: number; readonly flowM3PerS: number; readonly speedRevPerS: number };

export type PracticeRun = {
  readonly run: RunRecord;
  readonly decoded: DecodedRun;
  readonly bench: PracticeBench;
  readonly trueMoments: readonly TrueMoment[];
};

/** The guide and the practice bench left to themselves, in process: no port, no clock but the bench's own. */
export function recordPractice(kind: RunKind, scenario: PracticeScenario, seed: number): PracticeRun {
  const bench = createPracticeBench({ seed, scenario });
  const benchRecord = sampleBench();
  const pump = samplePump('dredger-feed-pump');
  const barometerPa = PRACTICE_RUN_SET_UP.barometerPa.value;
  const guide = createRunGuide({
    kind,
    pump,
    bench: benchRecord,
    barometerPa,
    sweptVolumeM3PerRev: 13.881e-6,
    deliveryLineVolume: PRACTICE_RUN_SET_UP.deliveryLineVolumeM3,
    patienceS: 45,
  });
  const decoder = createLineDecoder(benchRecord, barometerPa);
  const window = new ReadingWindow(60);
  const records: string[] = [];
  const trueMoments: TrueMoment[] = [];

  for (const action of guide.begin()) bench.command(practiceCommand(action));
  const stepS = 0.1;
  let afterFinishS = 0;
  for (let elapsedS = 0; elapsedS < 600 && afterFinishS < 1; elapsedS += stepS) {
    for (const sentence of bench.step(stepS)) {
      const line = { monotonicUs: Math.round(elapsedS * 1e6), bytes: sentence.replace(/\r\n$/, ''), fault: null };
      records.push(formatJournalRecord(line));
      const decoded = decoder.push(line);
      if (decoded.kind === 'reading') window.push(readingRowOf(decoded.row));
    }
    const { elapsedS: atS, portFlowM3PerS: flowM3PerS, speedRevPerS } = bench.state();
    trueMoments.push({ atS, flowM3PerS, speedRevPerS });
    for (const action of guide.look(window)) bench.command(practiceCommand(action));
    if (guide.state().isFinished) afterFinishS += stepS;
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
    bench: benchRecord,
    oil: PRACTICE_OIL,
    setUp: PRACTICE_RUN_SET_UP,
    zeroCheck: null,
    stripSheet: null,
    mounting: 1,
    operator: 'test',
    programVersion: 'test',
  };
  return { run, decoded: decodeJournal(records.join(''), benchRecord, barometerPa), bench, trueMoments };
}
