import { closeSync, fstatSync, openSync } from 'node:fs';

/** A file that is to be filed: open, so that it stays the same one whatever becomes of its name. */
export type SourceFile = {
  readonly fd: number;
  /** When it was opened [byte]. */
  readonly byteLength: number;
  readonly close: () => void;
};

/** @throws the operating system's error */
export function openSourceFile(path: string): SourceFile {
  const fd = openSync(path, 'r');
  return { fd, byteLength: fstatSync(fd).size, close: () => closeSync(fd) };
}
