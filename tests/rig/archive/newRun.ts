import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { type Archive, openArchive } from '../../../rig/archive/openArchive.ts';
import type { NewRun } from '../../../rig/archive/runStore.ts';
import { openSourceFile, type SourceFile } from '../../../rig/archive/sourceFile.ts';
import type { FiledArchive } from '../../support/filedArchive.ts';
import { inventedRun } from '../../support/inventedRun.ts';

/** A folder that is gone when the test is over. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'archive-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A copy of a filed archive, which may be spoilt; it is gone when the test is over. */
export function copiedArchive({ directory }: FiledArchive): string {
  const copy = join(temporaryFolder(), 'archive');
  cpSync(directory, copy, { recursive: true });
  return copy;
}

export function temporaryArchive(directory = temporaryFolder()): Archive {
  const archive = openArchive(directory);
  onTestFinished(() => archive.close());
  return archive;
}

/** A file with these bytes, to be imported. */
export function sourceFile(bytes: Uint8Array | string): SourceFile {
  const path = join(temporaryFolder(), 'source');
  writeFileSync(path, bytes);
  return openSourceFile(path);
}

/** An invented run, as it is asked of an archive. */
export function newRun(path = '/dev/ttyUSB0'): NewRun {
  const { format: _format, id: _id, ...run } = inventedRun('delivery');
  return {
    ...run,
    startedAtUtc: '2026-11-25T09:30:00Z',
    source: { kind: 'port', path },
    setUp: { ...run.setUp, barometerPa: { value: 100_000, standardUncertainty: 50 } },
  };
}
