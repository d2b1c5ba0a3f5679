import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { fileTogether, hasUnsettled, settleFilings } from '../../../rig/archive/fileTogether.ts';
import { temporaryFolder } from './newRun.ts';

function twoFolders(): { readonly staging: string; readonly folder: string } {
  const top = temporaryFolder();
  const staging = join(top, 'filing');
  const folder = join(top, 'certificates');
  for (const made of [staging, folder]) mkdirSync(made);
  return { staging, folder };
}

it('files all of them, and leaves nothing where they were made ready', () => {
  const { staging, folder } = twoFolders();
  fileTogether(staging, folder, '1', { '1.json': '{}', '1.pdf': new Uint8Array([1, 2]) });
  expect(readdirSync(folder).sort()).toEqual(['1.json', '1.pdf']);
  expect([...readFileSync(join(folder, '1.pdf'))]).toEqual([1, 2]);
  expect(readdirSync(staging)).toEqual([]);
});

it('files none where one of the names is taken, and leaves that one as it is', () => {
  const { staging, folder } = twoFolders();
  writeFileSync(join(folder, '1.pdf'), 'another');
  expect(() => fileTogether(staging, folder, '1', { '1.json': '{}', '1.pdf': 'mine' })).toThrowError(
    expect.objectContaining({ code: 'ARCHIVE', message: expect.stringContaining('1.pdf: exists already') }),
  );
  expect(readdirSync(folder)).toEqual(['1.pdf']);
  expect(readFileSync(join(folder, '1.pdf'), 'utf8')).toBe('another');
  expect(readdirSync(staging)).toEqual([]);
});

it('files none where a name cannot be written, and leaves nothing of them', () => {
  const { staging, folder } = twoFolders();
  expect(() => fileTogether(staging, folder, '1', { '1.json': '{}', 'no/such/place.pdf': 'x' })).toThrowError(
    expect.objectContaining({ code: 'ARCHIVE' }),
  );
  expect([readdirSync(folder), readdirSync(staging)]).toEqual([[], []]);
});

it('settles every state in which it can be cut off: before the rename nothing is filed, after it everything', () => {
  const names = ['1.json', '1.jws', '1.pdf'];
  for (let written = 0; written <= names.length; written += 1) {
    const { staging, folder } = twoFolders();
    mkdirSync(join(staging, '1.writing'));
    for (const name of names.slice(0, written)) writeFileSync(join(staging, '1.writing', name), name);
    expect(hasUnsettled(staging)).toBe(true);
    settleFilings(staging, folder);
    expect([readdirSync(folder), readdirSync(staging)]).toEqual([[], []]);
  }
  for (let moved = 0; moved <= names.length; moved += 1) {
    const { staging, folder } = twoFolders();
    mkdirSync(join(staging, '1.whole'));
    for (const [index, name] of names.entries()) {
      writeFileSync(join(index < moved ? folder : join(staging, '1.whole'), name), name);
    }
    settleFilings(staging, folder);
    expect(readdirSync(folder).sort()).toEqual(names);
    expect(readdirSync(staging)).toEqual([]);
    expect(hasUnsettled(staging)).toBe(false);
  }
});
