// Reads a file block by block, writes each to a new file, hashes it and counts its lines, beside the thread that decodes it.
// JavaScript as it stands: a thread starts in a few milliseconds so. It says { measure } and ends once all is on the disk; told
// to stop, or when it cannot go on, it ends without.
import { createHash } from 'node:crypto';
import { closeSync, fsyncSync, openSync, readSync, writeSync } from 'node:fs';
import { parentPort, workerData } from 'node:worker_threads';

const LINE_END = 0x0a;
const { fd, path, control, lengths, blocks, places } = workerData;
const { ready, freed, stopped, failed } = places;
const BLOCK_BYTES = blocks.byteLength / lengths.length;

/** Line ends, four bytes together: a byte of w ^ 0x0a0a0a0a is zero where one stands (Hacker's Delight, 6-1). */
function countLineEnds(block) {
  const quads = new Uint32Array(block.buffer, block.byteOffset, block.length >>> 2);
  let count = 0;
  for (let at = 0; at < quads.length; at += 1) {
    const differs = quads[at] ^ 0x0a0a0a0a;
    const zeros = ~(((differs & 0x7f7f7f7f) + 0x7f7f7f7f) | differs | 0x7f7f7f7f);
    if (zeros !== 0) count += Math.imul(zeros >>> 7, 0x01010101) >>> 24;
  }
  for (let at = 4 * quads.length; at < block.length; at += 1) if (block[at] === LINE_END) count += 1;
  return count;
}

/** Waits until a block may be read into: the one that stood in its place was decoded. */
function awaitPlace(number) {
  for (;;) {
    const count = Atomics.load(control, freed);
    if (number - count < lengths.length || Atomics.load(control, stopped) !== 0) return;
    Atomics.wait(control, freed, count);
  }
}

/** Lets the other thread have the next block. */
function announce() {
  Atomics.add(control, ready, 1);
  Atomics.notify(control, ready);
}

function file() {
  const hash = createHash('sha256');
  const measure = { byteLength: 0, lineCount: 0, sha256: '' };
  let lastByte = LINE_END;
  const into = openSync(path, 'wx');
  try {
    for (let number = 0; ; number += 1) {
      awaitPlace(number);
      if (Atomics.load(control, stopped) !== 0) return;
      const slot = number % lengths.length;
      const room = new Uint8Array(blocks, slot * BLOCK_BYTES, BLOCK_BYTES);
      const length = readSync(fd, room, 0, BLOCK_BYTES, null);
      lengths[slot] = length;
      announce();
      if (length === 0) break;
      const block = room.subarray(0, length);
      for (let at = 0; at < length; ) at += writeSync(into, block, at, length - at);
      hash.update(block);
      measure.byteLength += length;
      measure.lineCount += countLineEnds(block);
      lastByte = block[length - 1];
    }
    if (lastByte !== LINE_END) measure.lineCount += 1;
    measure.sha256 = hash.digest('hex');
    fsyncSync(into);
    parentPort.postMessage({ measure });
  } finally {
    closeSync(into);
  }
}

try {
  file();
} catch (error) {
  // Whoever waits for a block must not wait for ever.
  Atomics.store(control, failed, 1);
  announce();
  throw error;
}
