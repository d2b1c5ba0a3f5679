import { closeSync, constants, mkdtempSync, openSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { ReadStream } from 'node:tty';
import { open } from '@lydell/node-pty';

declare module '@lydell/node-pty' {
  export function open(options: { encoding: null }): { master: ReadStream; slave: ReadStream; _pty: string };
}

/** A list that can be waited on. */
export class Collected<Item> {
  readonly items: Item[] = [];
  private waiting: (() => void)[] = [];

  readonly add = (item: Item): void => {
    this.items.push(item);
    const waiting = this.waiting;
    this.waiting = [];
    for (const wake of waiting) wake();
  };

  async until(isEnough: (items: readonly Item[]) => boolean): Promise<readonly Item[]> {
    while (!isEnough(this.items)) await new Promise<void>((resolve) => this.waiting.push(resolve));
    return this.items;
  }
}

/**
 * A bench at the far end of a real pseudo-terminal. The path that the reader opens is a link, so that the bench can be pulled
 * out and another be put in its place.
 */
export class TestBench {
  readonly path: string;
  /** All that was ever written to the bench, through all its terminals. */
  readonly chunks = new Collected<string>();
  private readonly folder = mkdtempSync(join(tmpdir(), 'bench-'));
  private master: ReadStream | null = null;
  private slaveFd = -1;

  constructor() {
    this.path = join(this.folder, 'bench');
    this.plugIn();
  }

  plugIn(): void {
    const terminal = open({ encoding: null });
    // Hold the far end open without reading from it: the stream that comes with it would eat the bytes.
    this.slaveFd = openSync(terminal._pty, constants.O_RDWR | constants.O_NOCTTY);
    terminal.slave.destroy();
    this.master = terminal.master;
    this.master.on('data', (chunk: Buffer) => this.chunks.add(chunk.toString('latin1')));
    rmSync(this.path, { force: true });
    symlinkSync(terminal._pty, this.path);
  }

  get received(): string {
    return this.chunks.items.join('');
  }

  say(bytes: string): void {
    this.master?.write(Buffer.from(bytes, 'latin1'));
  }

  pullOut(): void {
    rmSync(this.path, { force: true });
    closeSync(this.slaveFd);
    this.master?.destroy();
    this.master = null;
  }

  dispose(): void {
    if (this.master !== null) this.pullOut();
    rmSync(this.folder, { recursive: true, force: true });
  }
}
