import type { ComponentChildren } from 'preact';
import type { Answer } from './useAnswer.ts';

/** A passage of the book: its heading stands in the ruled margin, what it says beside it. */
export function Entry({ head, children }: { readonly head: string; readonly children: ComponentChildren }) {
  return (
    <section class="entry">
      <h2>{head}</h2>
      <div class="entry-body">{children}</div>
    </section>
  );
}

/** Says what was refused; nothing where nothing was. */
export function Refusal({ text }: { readonly text: string | null }) {
  return (
    <div role="alert" class="refusal-place">
      {text !== null && <p class="look-here">{text}</p>}
    </div>
  );
}

/** The value once it is here, else a word about why it is not. */
export function Awaited<Value>({
  answer,
  children,
}: {
  readonly answer: Answer<Value>;
  readonly children: (value: Value) => ComponentChildren;
}) {
  if (answer.status === 'waiting') return <p class="faint">Looking it up …</p>;
  if (answer.status === 'refused') return <Refusal text={answer.message} />;
  return <>{children(answer.value)}</>;
}
