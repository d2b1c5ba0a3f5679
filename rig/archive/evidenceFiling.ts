import { once } from 'node:events';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { z } from 'zod';
import { messageOf } from '../errors.ts';
import { PROJECT_FOLDER } from '../projectFolder.ts';
import { ArchiveError } from './archiveErrors.ts';
import type { FileMeasure } from './measureFile.ts';
import type { SourceFile } from './sourceFile.ts';

const measured = z.object({
  measure: z.object({ byteLength: z.number(), lineCount: z.number(), sha256: z.string() }),
});

/** Blocks go round; memory that was used before is had again without asking the system for it. */
const BLOCK_COUNT = 8;
const BLOCK_BYTES = 1 << 20;

/** Where in `control` what stands: blocks that were read, blocks that are free again, whether nobody wants more, whether it failed. */
const PLACES = { ready: 0, freed: 1, stopped: 2, failed: 3 } as const;

/**
 * Reads a file, writes it to a new one and measures it, in a thread of its own: the caller decodes the very bytes of each
 * block meanwhile.
 */
export class EvidenceFiling {
  private readonly control = new Int32Array(new SharedArrayBuffer(4 * Object.keys(PLACES).length));
  /** Of each block [byte]; 0: the file is at its end. */
  private readonly lengths = new Int32Array(new SharedArrayBuffer(4 * BLOCK_COUNT));
  private readonly blocks = new SharedArrayBuffer(BLOCK_COUNT * BLOCK_BYTES);
  private readonly ended: Promise<FileMeasure | null>;
  private takenCount = 0;

  /**
   * @param source - stays open until {@link finish} or {@link abandon} is done [-]
   * @param path - a name that is not taken; not the file's last name, since it grows there [-]
   */
  constructor(
    source: SourceFile,
    private readonly path: string,
  ) {
    const { control, lengths, blocks } = this;
    const worker = new Worker(join(PROJECT_FOLDER, 'rig/archive/evidenceWorker.mjs'), {
      workerData: { fd: source.fd, path, control, lengths, blocks, places: PLACES },
      execArgv: [], // no loader of TypeScript: it has none to load
    });
    let measure: FileMeasure | null = null;
    worker.once('message', (message: unknown) => {
      measure = measured.parse(message).measure;
    });
    this.ended = once(worker, 'exit').then(() => measure); // an 'error' rejects
    this.ended.catch(() => undefined); // said by finish
  }

  /** The next block, which stays as it is until the one after it is asked for; null at the end of the file. @throws ArchiveError */
  next(): Uint8Array | null {
    const { control, lengths } = this;
    if (this.takenCount > 0) this.free();
    while (Atomics.load(control, PLACES.ready) === this.takenCount)
      Atomics.wait(control, PLACES.ready, this.takenCount);
    if (Atomics.load(control, PLACES.failed) !== 0) throw new ArchiveError(this.path, 'cannot be filed');
    const slot = this.takenCount % BLOCK_COUNT;
    this.takenCount += 1;
    const byteLength = lengths[slot] ?? 0;
    return byteLength === 0 ? null : new Uint8Array(this.blocks, slot * BLOCK_BYTES, byteLength);
  }

  /** Every block was taken. @returns the measure, once every byte is on the disk [-] @throws ArchiveError if it cannot be read or written */
  async finish(): Promise<FileMeasure> {
    try {
      const measure = await this.ended;
      if (measure !== null) return measure;
    } catch (cause) {
      throw new ArchiveError(this.path, `cannot be filed (${messageOf(cause)})`, { cause });
    }
    throw new ArchiveError(this.path, 'cannot be filed (its thread ended early)');
  }

  /** What was written is not wanted. Resolves once nobody reads or writes any more. */
  async abandon(): Promise<void> {
    Atomics.store(this.control, PLACES.stopped, 1);
    this.free();
    await this.ended.catch(() => undefined);
  }

  private free(): void {
    Atomics.add(this.control, PLACES.freed, 1);
    Atomics.notify(this.control, PLACES.freed);
  }
}
