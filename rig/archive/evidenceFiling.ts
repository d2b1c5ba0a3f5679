import { once } from 'node:events';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { z } from 'zod';
import { messageOf } from '../errors.ts';
import { PROJECT_FOLDER } from '../projectFolder.ts';
import { ArchiveError } from './archiveErrors.ts';
import type { FileMeasure } from './measureFile.ts';

const measured = z.object({
  measure: z.object({ byteLength: z.number(), lineCount: z.number(), sha256: z.string() }),
});

/** Blocks go round; memory that was used before is had again without asking the system for it. */
const BLOCK_COUNT = 8;
const BLOCK_BYTES = 1 << 20;

/** Where in `control` what stands; lengths that say something else than a length. */
const PLACES = { handed: 0, done: 1, failed: 2, end: -1, stop: -2 } as const;

/**
 * Writes evidence to a new file and measures it, in a thread of its own: the caller decodes the very bytes of each block
 * meanwhile.
 */
export class EvidenceFiling {
  private readonly control = new Int32Array(new SharedArrayBuffer(12));
  private readonly lengths = new Int32Array(new SharedArrayBuffer(4 * BLOCK_COUNT));
  private readonly blocks = new SharedArrayBuffer(BLOCK_COUNT * BLOCK_BYTES);
  private readonly ended: Promise<FileMeasure | null>;
  private handedCount = 0;
  private isOver = false;

  /** @param path - a name that is not taken; not the file's last name, since it grows there [-] */
  constructor(private readonly path: string) {
    const { control, lengths, blocks } = this;
    const worker = new Worker(join(PROJECT_FOLDER, 'rig/archive/evidenceWorker.mjs'), {
      workerData: { path, control, lengths, blocks, places: PLACES },
      execArgv: [], // no loader of TypeScript: it has none to load
    });
    let measure: FileMeasure | null = null;
    worker.once('message', (message: unknown) => {
      measure = measured.parse(message).measure;
    });
    this.ended = once(worker, 'exit').then(() => measure); // an 'error' rejects
    this.ended.catch(() => undefined); // said by finish
  }

  /** A block that is free to be read into; its content stays until as many more were handed over as there are blocks. @throws ArchiveError */
  block(): Uint8Array {
    for (;;) {
      const done = Atomics.load(this.control, PLACES.done);
      if (Atomics.load(this.control, PLACES.failed) !== 0) throw new ArchiveError(this.path, 'cannot be written');
      if (this.handedCount - done < BLOCK_COUNT) break;
      Atomics.wait(this.control, PLACES.done, done);
    }
    return new Uint8Array(this.blocks, (this.handedCount % BLOCK_COUNT) * BLOCK_BYTES, BLOCK_BYTES);
  }

  /** Hands the present block over, so many bytes of it. */
  hand(byteLength: number): void {
    this.lengths[this.handedCount % BLOCK_COUNT] = byteLength;
    this.handedCount += 1;
    Atomics.add(this.control, PLACES.handed, 1);
    Atomics.notify(this.control, PLACES.handed);
  }

  /** No more will come. @returns the measure, once every byte is on the disk [-] @throws ArchiveError if it cannot be written */
  async finish(): Promise<FileMeasure> {
    this.say(PLACES.end);
    try {
      const measure = await this.ended;
      if (measure !== null) return measure;
    } catch (cause) {
      throw new ArchiveError(this.path, `cannot be written (${messageOf(cause)})`, { cause });
    }
    throw new ArchiveError(this.path, 'cannot be written (its thread ended early)');
  }

  /** What was written is not wanted. Resolves once nobody writes any more. */
  async abandon(): Promise<void> {
    this.say(PLACES.stop);
    await this.ended.catch(() => undefined);
  }

  private say(word: number): void {
    if (this.isOver) return;
    this.isOver = true;
    if (Atomics.load(this.control, PLACES.failed) !== 0) return;
    this.block();
    this.hand(word);
  }
}
