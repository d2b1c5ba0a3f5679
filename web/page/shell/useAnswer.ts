import { useEffect, useState } from 'preact/hooks';

/** A question to the server, as a component sees it. */
export type Answer<Value> =
  | { readonly status: 'waiting' }
  | { readonly status: 'here'; readonly value: Value }
  | { readonly status: 'refused'; readonly message: string };

/** In words, what came instead of a value. */
export function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

/** Puts the question once, and again whenever `key` changes; a late answer to an old question is dropped. */
export function useAnswer<Value>(key: string, question: () => Promise<Value>): Answer<Value> {
  const [answered, setAnswered] = useState<{ readonly key: string; readonly answer: Answer<Value> }>({
    key,
    answer: { status: 'waiting' },
  });
  useEffect(() => {
    let isCurrent = true;
    question().then(
      (value) => isCurrent && setAnswered({ key, answer: { status: 'here', value } }),
      (error: unknown) => isCurrent && setAnswered({ key, answer: { status: 'refused', message: messageOf(error) } }),
    );
    return () => {
      isCurrent = false;
    };
  }, [key]);
  return answered.key === key ? answered.answer : { status: 'waiting' };
}
