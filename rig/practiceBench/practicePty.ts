import { constants, openSync, writeSync } from 'node:fs';
import { ReadStream } from 'node:tty';
import { z } from 'zod';
import { NoPtyError } from './noPtyError.ts';

export type PracticePty = {
  /** Where a reader opens the line. */
  readonly path: string;
  /**
   * Sends, after what still waits, and never blocks; false: nobody reads, there was no room, the bytes were dropped,
   * whole. Sending nothing sends what waits.
   */
  readonly send: (bytes: string) => boolean;
  readonly onBytes: (listener: (bytes: string) => void) => void;
};

type OpenPty = (options: { readonly encoding: BufferEncoding }) => unknown;

// The package's own declarations leave `open` out, so what it gives is checked here.
const ptyPackage = z.object({ open: z.custom<OpenPty>((value) => typeof value === 'function') });
const openedPty = z.object({
  master: z.instanceof(ReadStream),
  slave: z.instanceof(ReadStream),
  fd: z.int(),
  ptsName: z.string(),
});
const fullBuffer = z.object({ code: z.literal('EAGAIN') });

/** Loaded late: where the package has no binary for the machine, loading it fails. */
const loadPtyPackage = (): Promise<unknown> => import('@lydell/node-pty');

async function openRaw(loadPackage: () => Promise<unknown>) {
  const { open } = ptyPackage.parse(await loadPackage());
  const { master, slave, fd, ptsName } = openedPty.parse(open({ encoding: 'latin1' }));
  // The package's own far end would read what is meant for the reader, so it goes; ours never reads. It stays open, so
  // that a reader may come and go without the near end seeing a hang-up.
  const farEnd = new ReadStream(openSync(ptsName, constants.O_RDWR | constants.O_NOCTTY));
  farEnd.setRawMode(true);
  slave.destroy();
  return { nearEnd: master, nearEndFd: fd, path: ptsName };
}

/**
 * Opens a pseudo-terminal that carries bytes as they are: raw, no echo, before anybody else opens it.
 *
 * @param queueLimitBytes - how much may wait in this process, beyond the kernel's own buffer, for a slow reader [bytes]
 * @param loadPackage - how the pseudo-terminal package is had; a failing one in tests [-]
 * @returns the near end [-]
 * @throws NoPtyError where the machine has none
 */
export async function openPracticePty(
  queueLimitBytes: number,
  loadPackage: () => Promise<unknown> = loadPtyPackage,
): Promise<PracticePty> {
  const { nearEnd, nearEndFd, path } = await openRaw(loadPackage).catch((cause: unknown) => {
    throw new NoPtyError(cause instanceof Error ? cause.message : String(cause), { cause });
  });
  let waiting = Buffer.alloc(0);

  // Written past the stream: a Node stream on the near end of a pseudo-terminal spins while the kernel's buffer is full.
  function flush(): void {
    try {
      while (waiting.length > 0) waiting = waiting.subarray(writeSync(nearEndFd, waiting));
    } catch (error) {
      if (!fullBuffer.safeParse(error).success) throw error;
    }
  }

  return {
    path,
    send(bytes) {
      flush();
      if (waiting.length + bytes.length > queueLimitBytes) return false;
      waiting = Buffer.concat([waiting, Buffer.from(bytes, 'latin1')]);
      flush();
      return true;
    },
    onBytes(listener) {
      nearEnd.on('data', (bytes: Buffer | string) => listener(bytes.toString('latin1')));
    },
  };
}
