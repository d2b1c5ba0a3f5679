import { createHash } from 'node:crypto';
import { closeSync, fstatSync, openSync, readSync } from 'node:fs';

export type FileMeasure = {
  readonly byteLength: number;
  /** Lines, a last one without line end included. */
  readonly lineCount: number;
  /** SHA-256, hexadecimal in lower case. */
  readonly sha256: string;
};

const LINE_END = 0x0a;

/** Reads a file once, in pieces, for its length, lines and hash. */
export function measureFile(path: string): FileMeasure {
  const file = openSync(path, 'r');
  try {
    const byteLength = fstatSync(file).size;
    const hash = createHash('sha256');
    const buffer = Buffer.alloc(1 << 20);
    let lineCount = 0;
    let lastByte = LINE_END;
    for (let position = 0; position < byteLength; ) {
      const count = readSync(file, buffer, 0, Math.min(buffer.length, byteLength - position), position);
      if (count === 0) throw new Error(`${path} became shorter while it was read`);
      const piece = buffer.subarray(0, count);
      hash.update(piece);
      for (let at = piece.indexOf(LINE_END); at !== -1; at = piece.indexOf(LINE_END, at + 1)) lineCount += 1;
      lastByte = piece[count - 1] ?? LINE_END;
      position += count;
    }
    if (lastByte !== LINE_END) lineCount += 1;
    return { byteLength, lineCount, sha256: hash.digest('hex') };
  } finally {
    closeSync(file);
  }
}
