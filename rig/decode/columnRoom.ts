/** Rows are counted in so much of a file to tell how many there are in all [byte]. */
const SAMPLE_BYTES = 1 << 16;

/** Smaller files are not worth it [byte]. */
const LEAST_BYTES = 1 << 22;

/** Rows more than the sample lets expect [1]. */
const MARGIN = 1.05;

const LINE_END = 0x0a;
const COMMA = 0x2c;

const PAGE_BYTES = 4096;

/** A number of 8 bytes and the quality of 1 for each cell. */
const CELL_BYTES = 9;

/**
 * Memory in one piece for the columns of a big CSV file. The system gives out new memory page by page, each when it is first touched,
 * and takes a quarter of a second over that of a long run: this piece can be touched by another thread, just ahead of the one
 * that fills the columns. Where it is too small, columns take memory of their own.
 */
export class ColumnRoom {
  private used = 0;

  constructor(readonly buffer: SharedArrayBuffer) {}

  /** So many numbers, all zero, in this room or, where it is full, outside. */
  doubles(length: number): Float64Array {
    const offset = this.take(8 * length);
    return offset === null ? new Float64Array(length) : new Float64Array(this.buffer, offset, length);
  }

  /** So many bytes, all zero. */
  bytes(length: number): Uint8Array {
    const offset = this.take(length);
    return offset === null ? new Uint8Array(length) : new Uint8Array(this.buffer, offset, length);
  }

  private take(byteLength: number): number | null {
    const offset = this.used;
    const end = offset + 8 * Math.ceil(byteLength / 8);
    if (end > this.buffer.byteLength) return null;
    this.used = end;
    return offset;
  }
}

/**
 * Room for the columns of a CSV file, by the length of its first rows.
 *
 * @param bytes - the file [-]
 * @returns room, not touched yet; none for a small file [-]
 */
export function roomFor(bytes: Uint8Array): ColumnRoom {
  const firstEnd = bytes.indexOf(LINE_END) + 1;
  if (bytes.length < LEAST_BYTES || firstEnd === 0) return new ColumnRoom(new SharedArrayBuffer(0));
  const countOf = (piece: Uint8Array, wanted: number): number =>
    piece.reduce((count, byte) => (byte === wanted ? count + 1 : count), 0);
  const columnCount = 1 + countOf(bytes.subarray(0, firstEnd), COMMA);
  const sample = bytes.subarray(firstEnd, firstEnd + SAMPLE_BYTES);
  const rowCount = (MARGIN * (countOf(sample, LINE_END) + 1) * bytes.length) / sample.length;
  const pageCount = Math.ceil((rowCount * columnCount * CELL_BYTES) / PAGE_BYTES);
  return new ColumnRoom(new SharedArrayBuffer(pageCount * PAGE_BYTES));
}
