import { closeSync, existsSync, fstatSync, openSync, readSync } from 'node:fs';
import { messageOf } from '../errors.ts';
import type { ReadCertificate } from './certificateCheck.ts';
import { CertificateFileError } from './certificateErrors.ts';
import { readPresented, withEnding } from './readPresented.ts';

/** Room that the next file of its kind is read into again: memory that is new for each takes longer than the reading. */
const rooms = { itself: Buffer.alloc(1 << 19), beside: Buffer.alloc(1 << 19) };

function readInto(kind: keyof typeof rooms, path: string): Buffer {
  const file = openSync(path, 'r');
  try {
    const { size } = fstatSync(file);
    if (size > rooms[kind].length) rooms[kind] = Buffer.alloc(2 * size);
    const room = rooms[kind];
    let length = 0;
    for (let count = 1; count > 0 && length < size; length += count) {
      count = readSync(file, room, length, size - length, length);
    }
    if (length < size) throw new Error('it became shorter while it was read');
    return room.subarray(0, length);
  } finally {
    closeSync(file);
  }
}

function readOrSay(kind: keyof typeof rooms, path: string): Buffer {
  try {
    return readInto(kind, path);
  } catch (cause) {
    throw new CertificateFileError(path, `cannot be read (${messageOf(cause)})`, { cause });
  }
}

/**
 * Reads a certificate from its file, and from what lies beside it.
 *
 * @param path - of a .pdf or a .json file [-]
 * @returns what it says of itself [-]
 * @throws CertificateFileError if the file cannot be read
 */
export function readCertificateFile(path: string): ReadCertificate {
  const beside = (ending: 'json' | 'jws'): Buffer | null => {
    const other = withEnding(path, ending);
    return other !== path && existsSync(other) ? readOrSay('beside', other) : null;
  };
  return readPresented({ path, bytes: readOrSay('itself', path), beside });
}
