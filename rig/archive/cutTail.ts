import { closeSync, fstatSync, fsyncSync, ftruncateSync, openSync, readSync } from 'node:fs';
import { writeWholeFile } from './wholeFile.ts';

/**
 * Ends a file after its whole records. Nothing is lost: what stood behind is in a file of its own before it is cut off here.
 *
 * @param path - a file that was cut off while it was written [-]
 * @param tailPath - where the rest is kept [-]
 * @param wholeLength - where the last whole record ends [byte]
 * @returns how many bytes were moved [byte]
 */
export function cutTail(path: string, tailPath: string, wholeLength: number): number {
  const file = openSync(path, 'r+');
  try {
    const tail = Buffer.alloc(Math.max(0, fstatSync(file).size - wholeLength));
    if (tail.length === 0) return 0;
    readSync(file, tail, 0, tail.length, wholeLength);
    // 'replace': a crash between here and the cut leaves the very same tail behind.
    writeWholeFile(tailPath, tail, 'replace');
    ftruncateSync(file, wholeLength);
    fsyncSync(file);
    return tail.length;
  } finally {
    closeSync(file);
  }
}
