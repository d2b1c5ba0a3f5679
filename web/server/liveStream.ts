import { createSession } from 'better-sse';
import type { Request, Response } from 'express';
import type { WebDependencies } from './dependencies.ts';

/** A reader that lags this far behind is left out of live readings until it has caught up: the journal has them all. */
const MOST_BUFFERED_BYTES = 1_000_000;

/** GET /api/live: the state at once and whenever it changes, readings as they come. */
export function liveStream({
  session,
  archive,
}: WebDependencies): (request: Request, response: Response) => Promise<void> {
  return async (request, response) => {
    const stream = await createSession(request, response);
    const unsubscribe = [
      session.onState((state) => stream.push(state, 'state')),
      session.onReadings((readings) => {
        if (response.writableLength < MOST_BUFFERED_BYTES) stream.push(readings, 'readings');
      }),
      archive.onTestDay((pumpId) => stream.push(pumpId, 'testDay')),
    ];
    stream.once('disconnected', () => {
      for (const end of unsubscribe) end();
    });
    if (!stream.isConnected) {
      for (const end of unsubscribe) end();
      return;
    }
    stream.push(session.state(), 'state');
  };
}
