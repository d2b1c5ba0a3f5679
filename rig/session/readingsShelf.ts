import { once } from 'node:events';
import {
  type ReadingsWindow,
  readingsWindow,
  type SearchedReadings,
  searchedReadings,
} from '../../analysis/readingsWindow.ts';
import type { Archive } from '../archive/openArchive.ts';
import type { SealedRun } from '../archive/runStore.ts';
import { readRunReadings } from '../decode/readRunReadings.ts';
import { messageOf } from '../errors.ts';
import { JournalError } from '../journal/journalErrors.ts';
import { startThread } from '../startThread.ts';

/** A journal shorter than this is decoded at once; a longer one in a thread of its own, so that nobody waits meanwhile [bytes]. */
const SHORT_BYTES = 4e6;

/** Runs that are kept ready to be looked at, the last opened ones. */
const KEPT_RUNS = 3;

async function decodedBeside({ folder, run }: SealedRun): Promise<SearchedReadings> {
  const worker = startThread(import.meta, 'readingsThread', { folder, run });
  try {
    // Our own thread, built from the same tree: the shape of its one message is agreed.
    const [searched]: SearchedReadings[] = await once(worker, 'message');
    if (searched === undefined) throw new JournalError(folder, 'no readings were handed over');
    return searched;
  } catch (cause) {
    throw cause instanceof JournalError ? cause : new JournalError(folder, messageOf(cause), { cause });
  } finally {
    await worker.terminate();
  }
}

/** Readings of the runs that were opened last, ready to be looked at closely; a cache in memory, the journals stay the truth. */
export class ReadingsShelf {
  private readonly shelf = new Map<string, Promise<SearchedReadings>>();

  /**
   * @param archive - where the runs are [-]
   * @param shortBytes - a journal shorter than this is decoded at once [bytes]
   */
  constructor(
    private readonly archive: Archive,
    private readonly shortBytes = SHORT_BYTES,
  ) {}

  /**
   * A stretch of a sealed run as {@link readingsWindow} has it.
   *
   * @param runId - its id [-]
   * @param fromS - begin [s]
   * @param toS - end; null: the run's last reading [s]
   * @param dots - across the drawing [-]
   * @throws RunError, ChangedError, JournalError or CsvError if the run cannot be read; RangeError for an empty stretch
   */
  async window(runId: string, fromS: number, toS: number | null, dots: number): Promise<ReadingsWindow> {
    const searched = await this.searched(runId);
    return readingsWindow(searched, fromS, toS ?? endOf(searched, fromS), dots);
  }

  private searched(runId: string): Promise<SearchedReadings> {
    const sealed = this.archive.glanceSealedRun(runId);
    const key = `${runId} ${sealed.closing.sha256.journal}`;
    const known = this.shelf.get(key) ?? this.decoded(sealed, key);
    this.shelf.delete(key);
    this.shelf.set(key, known);
    for (const oldest of this.shelf.keys()) {
      if (this.shelf.size <= KEPT_RUNS) break;
      this.shelf.delete(oldest);
    }
    return known;
  }

  private async decoded(sealed: SealedRun, key: string): Promise<SearchedReadings> {
    try {
      if (sealed.closing.byteLength >= this.shortBytes) return await decodedBeside(sealed);
      const { readings, badLines } = readRunReadings(sealed.folder, sealed.run);
      return searchedReadings(readings, badLines);
    } catch (error) {
      this.shelf.delete(key);
      throw error;
    }
  }
}

/** A run of one reading has a stretch too. */
function endOf({ readings }: SearchedReadings, fromS: number): number {
  return Math.max(readings.elapsedS.at(-1) ?? 0, fromS + 1e-3);
}
