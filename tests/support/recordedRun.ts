import type { RunClosing, RunKind } from '../../analysis/records/runRecord.ts';
import type { PracticeScenario } from '../../rig/practiceBench/pumpTruth.ts';
import type { LiveReading } from '../../web/api.ts';
import { type PracticeRun, recordPractice } from './practiceRun.ts';

const recorded = new Map<string, PracticeRun>();

/** A run of the practice bench, in process, once per kind and scenario. */
export function recordedRun(kind: RunKind, scenario: PracticeScenario): PracticeRun {
  const key = `${kind} ${scenario}`;
  const known = recorded.get(key) ?? recordPractice(kind, scenario, 7);
  recorded.set(key, known);
  return known;
}

/** The same run under another name, or otherwise changed. */
export function renamed(recorded: PracticeRun, changes: Partial<PracticeRun['run']>): PracticeRun {
  return { ...recorded, run: { ...recorded.run, ...changes } };
}

/** An invented end of a run. */
export function closingOf(runId: string): RunClosing {
  const sha256 = '0'.repeat(64);
  return {
    format: 'slipwright.closing/1',
    runId,
    ending: 'completed',
    reason: 'all points taken',
    closedAtUtc: '2026-06-01T08:10:00Z',
    lineCount: 1,
    byteLength: 1,
    sha256: { run: sha256, journal: sha256, marks: sha256 },
  };
}

/** The last minutes of a recorded run, as a live line would have brought them. */
export function liveReadingsOf({ decoded }: PracticeRun): readonly LiveReading[] {
  const { elapsedS, channels } = decoded.readings;
  return [...elapsedS].map((atS, row) => ({
    atS,
    values: Object.fromEntries(
      Object.entries(channels).map(([name, column]) => {
        const value = column.values[row] ?? Number.NaN;
        return [name, Number.isNaN(value) ? null : value];
      }),
    ),
  }));
}
