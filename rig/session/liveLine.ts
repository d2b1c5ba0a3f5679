import type { ReadingRow } from '../../analysis/guide/readingWindow.ts';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { RunRecord } from '../../analysis/records/runRecord.ts';
import { createLineDecoder, type LineDecoder } from '../decode/lineDecoder.ts';
import { monotonicNowUs, type ReceivedLine } from '../serial/receivedLine.ts';
import { LineHealth } from './lineHealth.ts';
import { readingRowOf } from './readingRowOf.ts';
import type { SessionState } from './sessionState.ts';

/** Gauge pressures are made absolute with this until a run states its own barometer: ISO 2533 at sea level [Pa]. */
const BAROMETER_BEFORE_RUN_PA = 101325;

/** What the line says now: decoded, counted, and whether a practice bench speaks. */
export class LiveLine {
  private readonly counted = new LineHealth();
  private decoder: LineDecoder;
  private spokenBy: SessionState['practice'] = null;

  constructor(private bench: BenchRecord) {
    this.decoder = createLineDecoder(bench, BAROMETER_BEFORE_RUN_PA);
  }

  /** A calibration was entered: the same line, read by another record. */
  useBench(bench: BenchRecord): void {
    this.bench = bench;
    this.decoder = createLineDecoder(bench, BAROMETER_BEFORE_RUN_PA);
  }

  /** A run begins: its barometer, and the zeros that it says to take off. */
  beginRun({ setUp, zeroCheck }: RunRecord): void {
    this.decoder = createLineDecoder(this.bench, setUp.barometerPa.value, zeroCheck);
  }

  /** Between runs no zero is taken off. */
  endRun(): void {
    this.decoder = createLineDecoder(this.bench, BAROMETER_BEFORE_RUN_PA);
  }

  /** The reading in a line; null where it holds none. */
  push(line: ReceivedLine): ReadingRow | null {
    const decoded = this.decoder.push(line);
    this.counted.received(line, decoded);
    if (decoded.kind === 'note' && decoded.practice !== null) this.spokenBy = decoded.practice;
    if (decoded.kind === 'reconnected') this.spokenBy = null;
    return decoded.kind === 'reading' ? readingRowOf(decoded.row) : null;
  }

  /** The bench that announced itself as a practice bench; null for any other. */
  practice(): SessionState['practice'] {
    return this.spokenBy;
  }

  health(): Pick<SessionState, 'linesPerS' | 'quietForMs' | 'badLineCounts'> {
    const nowUs = monotonicNowUs();
    return {
      quietForMs: this.counted.quietForMs(nowUs),
      linesPerS: this.counted.linesPerS(nowUs),
      badLineCounts: this.counted.badLineCounts(),
    };
  }
}
