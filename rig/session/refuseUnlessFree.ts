import { SessionError } from './sessionErrors.ts';
import type { SessionState } from './sessionState.ts';

/**
 * One thing at a time at a bench, and only where its line is open.
 *
 * @param state - of the session [-]
 * @param isStarting - a run is being started, or its zeros taken [-]
 * @throws SessionError with code RUN_OPEN or LINE_NOT_OPEN
 */
export function refuseUnlessFree({ openRun, connection }: SessionState, isStarting: boolean): void {
  if (openRun !== null) throw new SessionError('RUN_OPEN', `run ${openRun.id} is open: stop it first`);
  if (isStarting) throw new SessionError('RUN_OPEN', 'a run is just being started, or its zeros taken');
  const { status, path, detail } = connection;
  if (status !== 'open') throw new SessionError('LINE_NOT_OPEN', `the line ${path} is not open: ${detail}`);
}
