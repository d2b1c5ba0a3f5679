// Writes bytes to a new file, hashes them and counts their lines, beside the thread that decodes them. JavaScript as it stands:
// a thread starts in a few milliseconds so. It says { measure } and ends once all is on the disk.
import { createHash } from 'node:crypto';
import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs';
import { parentPort, workerData } from 'node:worker_threads';

const LINE_END = 0x0a;
const PAGE_BYTES = 4096;
const { shared, path, touched } = workerData;
const bytes = Buffer.from(shared);

// First, to stay ahead of the thread that fills it. A page is had by writing to it; adding nothing, and in one step, spoils nothing.
const words = new Int32Array(touched);
for (let at = 0; at < words.length; at += PAGE_BYTES / 4) Atomics.add(words, at, 0);

/** Line ends, four bytes together: a byte of w ^ 0x0a0a0a0a is zero where one stands (Hacker's Delight, 6-1). */
function countLineEnds() {
  const quads = new Uint32Array(shared, 0, bytes.length >>> 2);
  let count = 0;
  for (let at = 0; at < quads.length; at += 1) {
    const differs = quads[at] ^ 0x0a0a0a0a;
    const zeros = ~(((differs & 0x7f7f7f7f) + 0x7f7f7f7f) | differs | 0x7f7f7f7f);
    if (zeros !== 0) count += Math.imul(zeros >>> 7, 0x01010101) >>> 24;
  }
  for (let at = 4 * quads.length; at < bytes.length; at += 1) if (bytes[at] === LINE_END) count += 1;
  return count;
}

const file = openSync(path, 'wx');
try {
  for (let at = 0; at < bytes.length; ) at += writeSync(file, bytes, at, Math.min(1 << 26, bytes.length - at));
  const isTorn = bytes.length > 0 && bytes[bytes.length - 1] !== LINE_END;
  const lineCount = countLineEnds() + (isTorn ? 1 : 0);
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  parentPort.postMessage({ measure: { byteLength: bytes.length, lineCount, sha256 } });
  fsyncSync(file);
} finally {
  closeSync(file);
}
