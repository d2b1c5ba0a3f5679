import type { ComponentType } from 'preact';
import { Awaited } from './Entry.tsx';
import { useAnswer } from './useAnswer.ts';

/** A place that is fetched when it is first opened: the bench does not wait for it. */
export function later<Props extends object>(
  name: string,
  fetchIt: () => Promise<ComponentType<Props>>,
): (props: Props) => preact.JSX.Element {
  return function Later(props) {
    const fetched = useAnswer(name, fetchIt);
    return <Awaited answer={fetched}>{(Fetched) => <Fetched {...props} />}</Awaited>;
  };
}
