import { useEffect, useState } from 'preact/hooks';
import { type Answer, useAnswer } from './useAnswer.ts';

/** As useAnswer, but what was here stays until the new answer comes, so that nothing jumps. */
export function useLatest<Value>(key: string, question: () => Promise<Value>): Answer<Value> {
  const answer = useAnswer(key, question);
  const [last, setLast] = useState<Answer<Value>>(answer);
  useEffect(() => {
    if (answer.status !== 'waiting') setLast(answer);
  }, [answer]);
  return answer.status === 'waiting' ? last : answer;
}
