import { createServer, type Server } from 'node:http';
import type { Express } from 'express';
import { RequestError } from './refusals.ts';

/** How many ports are tried, the asked one first. */
const PORTS_TRIED = 20;

function listenOn(app: Express, port: number): Promise<Server | 'taken'> {
  return new Promise((resolve, reject) => {
    const server = createServer(app);
    server.once('error', (error) => {
      if ('code' in error && (error.code === 'EADDRINUSE' || error.code === 'EACCES')) resolve('taken');
      else reject(error);
    });
    server.listen(port, '127.0.0.1', () => resolve(server));
  });
}

/** Where a listening server is found. */
export function addressOf(server: Server): string {
  const address = server.address();
  if (address === null || typeof address === 'string') throw new RangeError('server: is not listening on a port');
  return `http://127.0.0.1:${address.port}`;
}

/** Listens on this machine alone, on the asked port or the next free one; port 0 takes any. */
export async function listen(app: Express, firstPort: number): Promise<Server> {
  const lastPort = Math.min(firstPort + PORTS_TRIED - 1, 65_535);
  for (let port = firstPort; port <= lastPort; port += 1) {
    const server = await listenOn(app, port);
    if (server !== 'taken') return server;
  }
  throw new RequestError(
    500,
    'NO_FREE_PORT',
    `Ports ${firstPort} to ${lastPort} are all taken: name another with --port.`,
  );
}

/** Ends a server at once: event streams would otherwise keep it for ever. */
export function closeServer(server: Server): Promise<void> {
  return new Promise((resolve, reject) => {
    server.close((error) => (error === undefined ? resolve() : reject(error)));
    server.closeAllConnections();
  });
}
