import { closeSync, fstatSync, openSync, readSync } from 'node:fs';

const PIECE_BYTES = 1 << 26;

/**
 * Reads a file of any length into memory that other threads can see: it can be hashed and written in one while it is decoded
 * in another. `readFileSync` ends at 2 GiB.
 *
 * @param path - the file [-]
 * @returns its bytes, as they were when it was opened [-]
 * @throws the operating system's error, or an Error if the file became shorter meanwhile
 */
export function readFileBytes(path: string): Buffer<SharedArrayBuffer> {
  const file = openSync(path, 'r');
  try {
    const bytes = Buffer.from(new SharedArrayBuffer(fstatSync(file).size));
    for (let position = 0; position < bytes.length; ) {
      const count = readSync(file, bytes, position, Math.min(PIECE_BYTES, bytes.length - position), position);
      if (count === 0) throw new Error(`${path} became shorter while it was read`);
      position += count;
    }
    return bytes;
  } finally {
    closeSync(file);
  }
}
