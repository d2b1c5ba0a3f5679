import { createHash } from 'node:crypto';
import { existsSync, readFileSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { EvidenceFiling } from '../../../rig/archive/evidenceFiling.ts';
import { openSourceFile, type SourceFile } from '../../../rig/archive/sourceFile.ts';
import { sourceFile, temporaryFolder } from './newRun.ts';

/** Begins to file a source, which is closed once the test is over. */
function filing(source: SourceFile, path: string): EvidenceFiling {
  onTestFinished(source.close);
  return new EvidenceFiling(source, path);
}

/** Takes block after block, as they stood when they were taken. */
function takeAll(filing: EvidenceFiling): Buffer {
  const taken: Buffer[] = [];
  for (let block = filing.next(); block !== null; block = filing.next()) taken.push(Buffer.from(block));
  return Buffer.concat(taken);
}

it('files more blocks than there are, byte for byte, and measures them as they are', async () => {
  // 19 MB go more than twice round the eight blocks; lines of 1 to 37 bytes, the last without an end.
  const pieces: string[] = [];
  for (let line = 0; line <= 1_000_000; line += 1) pieces.push('x'.repeat(line % 37));
  const bytes = Buffer.from(pieces.join('\n'));
  const path = join(temporaryFolder(), 'evidence');
  const begun = filing(sourceFile(bytes), path);
  expect(takeAll(begun).equals(bytes)).toBe(true);
  expect(await begun.finish()).toEqual({
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
    const path = join(temporaryFolder(), `lines-${lineCount}`);
    const begun = filing(sourceFile(text), path);
    expect(takeAll(begun).toString()).toBe(text);
    expect((await begun.finish()).lineCount).toBe(lineCount);
  }
});

it('says that it cannot read', async () => {
  const path = join(temporaryFolder(), 'evidence');
  const begun = filing(openSourceFile(temporaryFolder()), path); // a folder can be opened, not read
  expect(() => takeAll(begun)).toThrowError(expect.objectContaining({ code: 'ARCHIVE' }));
  await expect(begun.finish()).rejects.toMatchObject({ message: expect.stringContaining('EISDIR') });
});

it('says that it cannot write, and lets nobody wait for a block for ever', async () => {
  const begun = filing(sourceFile(new Uint8Array(64 << 20)), join(temporaryFolder(), 'no such folder', 'evidence'));
  expect(() => takeAll(begun)).toThrowError(expect.objectContaining({ code: 'ARCHIVE' }));
  await expect(begun.finish()).rejects.toMatchObject({ code: 'ARCHIVE', message: expect.stringContaining('ENOENT') });
});

it('stops writing when what it wrote is not wanted', async () => {
  const path = join(temporaryFolder(), 'evidence');
  const begun = filing(sourceFile(new Uint8Array(64 << 20)), path);
  expect(begun.next()).toHaveLength(1 << 20);
  await begun.abandon();
  const { size } = statSync(path);
  expect(size).toBeLessThan(64 << 20);
  rmSync(path);
  expect(existsSync(path)).toBe(false);
});
