import { closeSync, fstatSync, openSync, readSync } from 'node:fs';

/** Bytes that come block by block. */
export type ByteSource = {
  /** How many there are in all [byte]. */
  readonly byteLength: number;
  /** Fills a block. @returns how many bytes came; 0 at the end [byte] */
  readonly read: (into: Uint8Array) => number;
  readonly close: () => void;
};

/** @throws the operating system's error */
export function fileSource(path: string): ByteSource {
  const file = openSync(path, 'r');
  return {
    byteLength: fstatSync(file).size,
    read: (into) => readSync(file, into, 0, into.length, null),
    close: () => closeSync(file),
  };
}

export function memorySource(bytes: Uint8Array): ByteSource {
  let position = 0;
  return {
    byteLength: bytes.length,
    read: (into) => {
      const piece = bytes.subarray(position, position + into.length);
      into.set(piece);
      position += piece.length;
      return piece.length;
    },
    close: () => {},
  };
}
