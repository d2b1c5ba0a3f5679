import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Archive, openArchive } from '../../../rig/archive/openArchive.ts';
import { readRunReadings } from '../../../rig/decode/readRunReadings.ts';
import { ReadingsShelf } from '../../../rig/session/readingsShelf.ts';
import { copySampleRuns } from '../../support/samples.ts';

const RUN = '2026-11-26-0002';

describe('the shelf of opened readings', () => {
  let folder: string;
  let archive: Archive;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'slipwright-shelf-'));
    copySampleRuns(folder, [RUN]);
    archive = openArchive(folder);
  });
  afterEach(() => {
    archive.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('gives what the journal holds, decoded here or in a thread of its own', async () => {
    const here = await new ReadingsShelf(archive).window(RUN, 20, 24, 500);
    const beside = await new ReadingsShelf(archive, 0).window(RUN, 20, 24, 500);
    expect(beside).toEqual(here);
    const { folder: runFolder, run } = archive.glanceSealedRun(RUN);
    const { readings } = readRunReadings(runFolder, run);
    const speed = [...(readings.channels.speed?.values ?? [])];
    expect(here.channels.speed?.values).toEqual(
      speed.filter((_, row) => {
        const [before, after] = [readings.elapsedS[row - 1] ?? 0, readings.elapsedS[row + 1] ?? 99];
        return after >= 20 && before <= 24; // one beyond either end
      }),
    );
  });

  it('goes to the end of the run where no end is named', async () => {
    const { toS, lastS } = await new ReadingsShelf(archive).window(RUN, 0, null, 100);
    expect(toS).toBe(lastS);
    expect(lastS).toBeGreaterThan(30);
  });

  it('says why a run cannot be read, from the thread too', async () => {
    await expect(new ReadingsShelf(archive).window('2026-01-01-0001', 0, null, 10)).rejects.toThrow(/2026-01-01-0001/);
    const { folder: runFolder } = archive.glanceSealedRun(RUN);
    const shelf = new ReadingsShelf(archive, 0);
    const glanced = shelf.window(RUN, 0, null, 10);
    rmSync(join(runFolder, 'journal.log'));
    await expect(glanced).rejects.toMatchObject({ code: 'JOURNAL' });
  });
});
