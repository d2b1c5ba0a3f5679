import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { EvidenceFiling } from '../../../rig/archive/evidenceFiling.ts';
import { memorySource } from '../../../rig/decode/byteSource.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'slipwright-filing-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Hands bytes over block by block. */
function handAll(filing: EvidenceFiling, bytes: Uint8Array): void {
  const source = memorySource(bytes);
  for (;;) {
    const byteLength = source.read(filing.block());
    if (byteLength === 0) return;
    filing.hand(byteLength);
  }
}

it('files more blocks than there are, byte for byte, and measures them as they are', async () => {
  // 19 MB go more than twice round the eight blocks; lines of 1 to 37 bytes, the last without an end.
  const pieces: string[] = [];
  for (let line = 0; line <= 1_000_000; line += 1) pieces.push('x'.repeat(line % 37));
  const bytes = Buffer.from(pieces.join('\n'));
  const path = join(folder, 'evidence');
  const filing = new EvidenceFiling(path);
  handAll(filing, bytes);
  expect(await filing.finish()).toEqual({
    byteLength: bytes.length,
    lineCount: 1_000_001,
    sha256: createHash('sha256').update(bytes).digest('hex'),
  });
  expect(readFileSync(path).equals(bytes)).toBe(true);
});

it('counts no line in an empty file, and one in a file that is one line end', async () => {
  for (const [text, lineCount] of [
    ['', 0],
    ['\n', 1],
    ['a\n\nb', 3],
  ] as const) {
    const path = join(folder, `lines-${lineCount}`);
    const filing = new EvidenceFiling(path);
    handAll(filing, Buffer.from(text));
    expect((await filing.finish()).lineCount).toBe(lineCount);
  }
});

it('says that it cannot write, and lets nobody wait for a block for ever', async () => {
  const filing = new EvidenceFiling(join(folder, 'no such folder', 'evidence'));
  expect(() => handAll(filing, new Uint8Array(64 << 20))).toThrowError(expect.objectContaining({ code: 'ARCHIVE' }));
  await expect(filing.finish()).rejects.toMatchObject({ code: 'ARCHIVE', message: expect.stringContaining('ENOENT') });
});

it('stops writing when what it wrote is not wanted', async () => {
  const path = join(folder, 'evidence');
  const filing = new EvidenceFiling(path);
  handAll(filing, new Uint8Array(3 << 20));
  await filing.abandon();
  rmSync(path);
  expect(existsSync(path)).toBe(false);
});
