import { useState } from 'preact/hooks';
import { messageOf } from './useAnswer.ts';

/** Something the hand starts: whether it is under way, and what was refused the last time. */
export type Action = {
  readonly isUnderWay: boolean;
  readonly refusal: string | null;
  readonly run: (work: () => Promise<void>) => void;
};

export function useAction(): Action {
  const [isUnderWay, setUnderWay] = useState(false);
  const [refusal, setRefusal] = useState<string | null>(null);
  const run = (work: () => Promise<void>): void => {
    setUnderWay(true);
    setRefusal(null);
    work()
      .catch((error: unknown) => setRefusal(messageOf(error)))
      .finally(() => setUnderWay(false));
  };
  return { isUnderWay, refusal, run };
}
