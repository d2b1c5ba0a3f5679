import { type BenchWatch, createBenchWatch } from '../../analysis/guide/benchWatch.ts';
import type { BenchAction, RunGuide } from '../../analysis/guide/guideSetting.ts';
import { type ReadingRow, ReadingWindow } from '../../analysis/guide/readingWindow.ts';
import type { RunRecord } from '../../analysis/records/runRecord.ts';
import type { JournalState } from '../journal/journalFile.ts';
import type { OpenRun } from './sessionState.ts';

/** The guide looks at readings of the last while, no longer than a hold and a dry start need [s]. */
const WINDOW_S = 60;

/** The guide looks again after so much bench time [s]. */
const LOOK_EVERY_S = 0.5;

/** A run that steps itself goes on for so long after its last step, so that the end of the last hold is whole [s]. */
const TAIL_S = 1;

/** The run that is being recorded, with the guide that leads through it. */
export class GuidedRun {
  private readonly window = new ReadingWindow(WINDOW_S);
  private firstS: number | null = null;
  private lookedAtS = Number.NEGATIVE_INFINITY;
  private finishedAtS: number | null = null;
  private readonly watch: BenchWatch;
  private journal: JournalState = { lineCount: 0, byteLength: 0, oldestUnsyncedMs: 0 };

  constructor(
    readonly run: RunRecord,
    private readonly guide: RunGuide,
    /** The practice bench is told what the guide says. */
    readonly stepsItself: boolean,
  ) {
    this.watch = createBenchWatch(run);
  }

  journalled(state: JournalState): void {
    this.journal = state;
  }

  /** Hands a reading to the guide; what is to be done at the bench now. */
  received(row: ReadingRow): readonly BenchAction[] {
    this.firstS ??= row.atS;
    this.window.push(row);
    this.watch.look(row);
    if (row.atS - this.lookedAtS < LOOK_EVERY_S) return [];
    this.lookedAtS = row.atS;
    const actions = this.guide.look(this.window);
    if (this.guide.state().isFinished) this.finishedAtS ??= row.atS;
    return actions;
  }

  /** A run that steps itself has done all its steps, and its tail. */
  isOver(): boolean {
    return this.stepsItself && this.finishedAtS !== null && this.window.lastS() - this.finishedAtS >= TAIL_S;
  }

  state(): OpenRun {
    const { run, firstS, journal } = this;
    return {
      id: run.id,
      kind: run.kind,
      pumpName: run.pump.name,
      elapsedS: firstS === null ? 0 : this.window.lastS() - firstS,
      lineCount: journal.lineCount,
      oldestUnsyncedMs: journal.oldestUnsyncedMs,
      guide: this.guide.state(),
      limits: this.watch.limits(),
      warnings: this.watch.warnings(),
    };
  }
}
