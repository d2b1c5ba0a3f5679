import { useLayoutEffect, useState } from 'preact/hooks';
import type { ReadingsWindow } from '../../../api.ts';
import { decimalsOf, type TimeSpan } from '../../plots/timeSpan.ts';
import { ask } from '../../shell/ask.ts';
import { messageOf } from '../../shell/useAnswer.ts';

/** While the hand moves, so long is waited before a stretch is asked for [ms]. */
const PATIENCE_MS = 60;

/**
 * A stretch of a run as closely as the screen shows it, asked for anew when it changes; the last one stays meanwhile.
 *
 * @param runId - of the run [-]
 * @param span - the stretch [s]
 * @param dots - across the drawing; 0: it is not laid out yet [-]
 * @param isMoving - the hand is at it [-]
 */
export function useRecordWindow(
  runId: string,
  span: TimeSpan,
  dots: number,
  isMoving: boolean,
): { readonly window: ReadingsWindow | null; readonly refusal: string | null } {
  const [answered, setAnswered] = useState<{ window: ReadingsWindow | null; refusal: string | null }>({
    window: null,
    refusal: null,
  });
  const decimals = decimalsOf(span) + 1;
  const [from, to] = [span[0].toFixed(decimals), span[1].toFixed(decimals)];
  // Asked for before the last one is drawn on the new stretch: the answer comes meanwhile.
  useLayoutEffect(() => {
    if (dots === 0) return;
    const superseded = new AbortController();
    const askNow = (): void => {
      ask.window(runId, from, to, dots, superseded.signal).then(
        (window) => setAnswered({ window, refusal: null }),
        (error: unknown) => {
          if (!superseded.signal.aborted) setAnswered({ window: null, refusal: messageOf(error) });
        },
      );
    };
    const timer = isMoving ? setTimeout(askNow, PATIENCE_MS) : null;
    if (timer === null) askNow();
    return () => {
      if (timer !== null) clearTimeout(timer);
      superseded.abort();
    };
  }, [runId, from, to, dots, isMoving]);
  return answered;
}
