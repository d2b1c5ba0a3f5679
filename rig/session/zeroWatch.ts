import { takeZeroCheck, type ZeroCheckRefusal, type ZeroCircumstances } from '../../analysis/calibration/zeroCheck.ts';
import { ReadingWindow } from '../../analysis/guide/readingWindow.ts';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { ZeroCheck } from '../../analysis/records/runRecord.ts';
import { createLineDecoder, type LineDecoder } from '../decode/lineDecoder.ts';
import { BenchError } from '../errors.ts';
import type { ReceivedLine } from '../serial/receivedLine.ts';
import { readingRowOf } from './readingRowOf.ts';

/** Barometer of the day and what stands in the tubes of the pressure transmitters. */
export type ZeroConditions = Omit<ZeroCircumstances, 'takenAtUtc'>;

/** A zero could not be taken; `code` says why, as analysis/calibration/zeroCheck.ts names it. */
export class ZeroCheckError extends BenchError {
  override readonly code: ZeroCheckRefusal['code'];

  constructor(readonly refusal: ZeroCheckRefusal) {
    super(refusal.text);
    this.code = refusal.code;
  }
}

/** A zero is taken over so much bench time, and tried again so often [s]. */
const WATCH_S = 3.2;
const TRY_EVERY_S = 0.5;

/** What was on its way when the watch began is let pass, by the bench's clock and by the wall's [s]. */
const LET_PASS_S = { bench: 2, wall: 0.5 } as const;

/** Given up after so long by both clocks: a practice bench in haste waits for the program too [s]. */
const PATIENCE_S = { bench: 20, wall: 5 } as const;

/** What time alone may mend: a shaft that runs down, a line that vents, a last gush through the meter. */
const MAY_PASS: readonly ZeroCheckRefusal['code'][] = [
  'ZERO_TOO_SHORT',
  'ZERO_SHAFT_TURNS',
  'ZERO_NOT_STILL',
  'ZERO_NOT_AT_REST',
  'ZERO_WILD_READING',
];

/** A line that has said nothing for so long by the clock on the wall says nothing of zeros either [ms]. */
const SILENCE_MS = 10_000;

/**
 * Watches the line until everything has stood still for three seconds, and takes the zeros there. Reads the lines with a
 * decoder of its own: gauge pressures need the barometer of the day, and no older zero may be taken off.
 */
export class ZeroWatch {
  readonly taken: Promise<ZeroCheck>;
  private readonly decoder: LineDecoder;
  private readonly window = new ReadingWindow(WATCH_S);
  private firstS: number | null = null;
  private triedS = Number.NEGATIVE_INFINITY;
  private silence: NodeJS.Timeout;
  private settle: { resolve: (zero: ZeroCheck) => void; reject: (error: ZeroCheckError) => void };

  constructor(
    private readonly bench: BenchRecord,
    private readonly conditions: ZeroConditions,
    /** Bench seconds in a second of the wall: 1 but for a practice bench. */
    private readonly speedUp = 1,
  ) {
    this.decoder = createLineDecoder(bench, conditions.barometerPa);
    this.settle = { resolve: () => {}, reject: () => {} };
    this.taken = new Promise((resolve, reject) => {
      this.settle = { resolve, reject };
    });
    this.silence = this.listen();
  }

  received(line: ReceivedLine): void {
    const decoded = this.decoder.push(line);
    if (decoded.kind !== 'reading') return;
    clearTimeout(this.silence);
    this.silence = this.listen();
    const row = readingRowOf(decoded.row);
    this.firstS ??= row.atS + this.longer(LET_PASS_S);
    if (row.atS < this.firstS) return;
    this.window.push(row);
    if (row.atS - this.firstS < WATCH_S || row.atS - this.triedS < TRY_EVERY_S) return;
    this.triedS = row.atS;
    this.tryOnce(row.atS - this.firstS > this.longer(PATIENCE_S));
  }

  /** Ends the watch with what there is: the line went, or the program ends. */
  end(): void {
    clearTimeout(this.silence);
    this.tryOnce(true);
  }

  private longer({ bench, wall }: { readonly bench: number; readonly wall: number }): number {
    return Math.max(bench, wall * this.speedUp);
  }

  private listen(): NodeJS.Timeout {
    return setTimeout(() => this.end(), SILENCE_MS);
  }

  private tryOnce(isLast: boolean): void {
    const readings = this.window.since(this.window.lastS() - WATCH_S);
    const takenAtUtc = new Date().toISOString();
    const zero = takeZeroCheck(readings, this.bench, { ...this.conditions, takenAtUtc });
    if (zero.ok) this.settle.resolve(zero.value);
    else if (isLast || !MAY_PASS.includes(zero.reason.code)) this.settle.reject(new ZeroCheckError(zero.reason));
    else return;
    clearTimeout(this.silence);
  }
}
