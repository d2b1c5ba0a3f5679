import { signal, useSignalEffect } from '@preact/signals';
import { sessionState, wasServerAway } from '../live/liveBench.ts';
import { address, goTo } from '../shell/route.ts';

/** The run that was started or seen here and is not sealed yet; a short one may be sealed before it was ever seen open. */
const watchedRunId = signal<string | null>(null);

export function watchRun(runId: string): void {
  watchedRunId.value = runId;
}

/** A run that was open when the program ended under it; null where none was. */
export const lostRunId = signal<string | null>(null);

/** Opens the watched run as soon as it is sealed, by whomever. */
export function useSealedRunOpens(): void {
  useSignalEffect(() => {
    const { openRun = null, lastSealedRunId = null } = sessionState.value ?? {};
    if (openRun !== null) {
      watchRun(openRun.id);
      wasServerAway.value = false;
    } else if (lastSealedRunId !== null && lastSealedRunId === watchedRunId.value) {
      watchedRunId.value = null;
      goTo(address.run(lastSealedRunId));
    } else if (watchedRunId.value !== null && wasServerAway.value) {
      lostRunId.value = watchedRunId.value;
      watchedRunId.value = null;
    }
  });
}
