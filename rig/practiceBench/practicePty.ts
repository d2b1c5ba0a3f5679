import { constants, openSync } from 'node:fs';
import { ReadStream } from 'node:tty';
import { z } from 'zod';
import { NoPtyError } from './noPtyError.ts';

export type PracticePty = {
  /** Where a reader opens the line. */
  readonly path: string;
  /** Sends if there is room; false: nobody reads and the bytes were dropped, whole. */
  readonly send: (bytes: string) => boolean;
  readonly onBytes: (listener: (bytes: string) => void) => void;
};

type OpenPty = (options: { readonly encoding: BufferEncoding }) => unknown;

// The package's own declarations leave `open` out, so what it gives is checked here.
const ptyPackage = z.object({ open: z.custom<OpenPty>((value) => typeof value === 'function') });
const openedPty = z.object({ master: z.instanceof(ReadStream), slave: z.instanceof(ReadStream), ptsName: z.string() });

/** Loaded late: where the package has no binary for the machine, loading it fails. */
const loadPtyPackage = (): Promise<unknown> => import('@lydell/node-pty');

async function openRaw(loadPackage: () => Promise<unknown>) {
  const { open } = ptyPackage.parse(await loadPackage());
  const { master, slave, ptsName } = openedPty.parse(open({ encoding: 'latin1' }));
  // The package's own far end would read what is meant for the reader, so it goes; ours never reads. It stays open, so
  // that a reader may come and go without the near end seeing a hang-up.
  const farEnd = new ReadStream(openSync(ptsName, constants.O_RDWR | constants.O_NOCTTY));
  farEnd.setRawMode(true);
  slave.destroy();
  return { nearEnd: master, farEnd, path: ptsName };
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
  const { nearEnd, farEnd, path } = await openRaw(loadPackage).catch((cause: unknown) => {
    throw new NoPtyError(cause instanceof Error ? cause.message : String(cause), { cause });
  });
  return {
    path,
    send(bytes) {
      if (farEnd.destroyed || nearEnd.writableLength + bytes.length > queueLimitBytes) return false;
      nearEnd.write(bytes, 'latin1');
      return true;
    },
    onBytes(listener) {
      nearEnd.on('data', (bytes: Buffer | string) => listener(bytes.toString('latin1')));
    },
  };
}
