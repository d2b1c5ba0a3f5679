import type { BenchRecord } from '../../analysis/records/benchRecord.ts';

/**
 * Why a piece of the stream is not a whole line. 'tooLong': a piece of a run without delimiter; 'torn': what stood in the
 * line when the port closed; 'reconnected': no bytes at all, the port came back here after it was gone.
 */
export const LINE_FAULTS = ['tooLong', 'torn', 'reconnected'] as const;
export type LineFault = (typeof LINE_FAULTS)[number];

export type ReceivedLine = {
  /** When the end of the line was read, on the host's monotonic clock. */
  readonly monotonicUs: number;
  /** The line as it came, a character a byte (latin1), without its delimiter. */
  readonly bytes: string;
  readonly fault: LineFault | null;
};

/** What the reader must know of a line's layout; the rest is the decoder's. */
export type LineFraming = Pick<BenchRecord['wire'], 'delimiter' | 'maxLineBytes'>;

/** The host's monotonic clock, common to all processes of the machine [µs]. */
export function monotonicNowUs(): number {
  return Number(process.hrtime.bigint() / 1000n);
}
