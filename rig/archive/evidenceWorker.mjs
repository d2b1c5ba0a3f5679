// Writes blocks of bytes to a new file as they are handed over, hashes them and counts their lines, beside the thread that
// decodes them. JavaScript as it stands: a thread starts in a few milliseconds so. It says { measure } and ends once all is on
// the disk; told to stop, or when it cannot write, it ends without.
import { createHash } from 'node:crypto';
import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs';
import { parentPort, workerData } from 'node:worker_threads';

const LINE_END = 0x0a;
const { path, control, lengths, blocks, places } = workerData;
const { handed, done, failed, end, stop } = places;

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

/** Length of the next block, once it was handed over. */
function awaitBlock(number) {
  while (Atomics.load(control, handed) === number) Atomics.wait(control, handed, number);
  return lengths[number % lengths.length];
}

function file() {
  const hash = createHash('sha256');
  const measure = { byteLength: 0, lineCount: 0, sha256: '' };
  let lastByte = LINE_END;
  const into = openSync(path, 'wx');
  try {
    for (let number = 0; ; number += 1) {
      const length = awaitBlock(number);
      if (length === stop) return;
      if (length === end) break;
      const start = (number % lengths.length) * (blocks.byteLength / lengths.length);
      const block = new Uint8Array(blocks, start, length);
      for (let at = 0; at < length; ) at += writeSync(into, block, at, length - at);
      hash.update(block);
      measure.byteLength += length;
      measure.lineCount += countLineEnds(block);
      lastByte = block[length - 1];
      Atomics.add(control, done, 1);
      Atomics.notify(control, done);
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
  // Whoever waits for a free block must not wait for ever.
  Atomics.store(control, failed, 1);
  Atomics.add(control, done, 1);
  Atomics.notify(control, done);
  throw error;
}
