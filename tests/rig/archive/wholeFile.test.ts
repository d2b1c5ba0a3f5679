import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { writeWholeFile } from '../../../rig/archive/wholeFile.ts';
import { temporaryFolder } from './newRun.ts';

it('a file appears whole and is never overwritten unless it is a cache', () => {
  const folder = temporaryFolder();
  const path = join(folder, 'record.json');
  writeWholeFile(path, 'first');
  expect(() => writeWholeFile(path, 'second')).toThrowError(expect.objectContaining({ code: 'ARCHIVE', path }));
  expect(readFileSync(path, 'utf8')).toBe('first');
  writeWholeFile(path, 'third', 'replace');
  expect(readFileSync(path, 'utf8')).toBe('third');
  expect(readdirSync(folder)).toEqual(['record.json']);
});

it('says which file it could not write, and leaves nothing behind', () => {
  const folder = temporaryFolder();
  mkdirSync(join(folder, 'taken'));
  expect(() => writeWholeFile(join(folder, 'taken'), 'x', 'replace')).toThrowError(
    expect.objectContaining({ code: 'ARCHIVE', path: join(folder, 'taken') }),
  );
  expect(() => writeWholeFile(join(folder, 'nowhere', 'x'), 'x')).toThrowError(
    expect.objectContaining({ code: 'ARCHIVE' }),
  );
  expect(readdirSync(folder)).toEqual(['taken']);
});
