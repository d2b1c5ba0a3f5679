import { read } from 'node:fs';
import { promisify } from 'node:util';
import type { SerialPort } from 'serialport';
import { codeOf } from '../errors.ts';

const readAsync = promisify(read);

/**
 * Makes the far end's going away show as a disconnection at all times. The read loop of serialport 13 takes a read of no bytes
 * for 'try again': when a terminal hangs up between two polls, every read gives none, and the loop spins for ever at full load
 * without a word. A terminal in raw mode that is asked for at least one byte gives none only once it has hung up.
 *
 * @param port - an open port that nobody reads from yet; Windows ports have another read loop and are left alone [-]
 */
export function endReadsAtHangUp(port: SerialPort): void {
  const binding = port.port;
  if (binding === undefined || !('poller' in binding)) return;
  binding.read = async (buffer: Buffer, offset: number, length: number) => {
    for (;;) {
      if (binding.fd === null) throw portIsClosed();
      try {
        const { bytesRead } = await readAsync(binding.fd, buffer, offset, length, null);
        if (bytesRead > 0) return { buffer, bytesRead };
        throw new Error('hung up');
      } catch (error) {
        if (!['EAGAIN', 'EWOULDBLOCK', 'EINTR'].includes(codeOf(error) ?? '')) throw error;
        if (!binding.isOpen) throw portIsClosed(); // closed during the read: a poller that is gone ends the process
        await new Promise<void>((resolve, reject) => {
          binding.poller.once('readable', (refused: Error | null) => (refused ? reject(refused) : resolve()));
        });
      }
    }
  };
}

/** What the stream above takes for the answer to its own closing, and not for a disconnection. */
function portIsClosed(): Error {
  return Object.assign(new Error('the port is closed'), { canceled: true });
}
