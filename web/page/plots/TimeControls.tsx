import type { ComponentChildren } from 'preact';
import { shifted, type TimeSpan, zoomed } from './timeSpan.ts';

/** Share of the span that a step moves [1]. */
const STEP = 0.25;
const CLOSER = 0.5;

type Move = (span: TimeSpan, whole: TimeSpan) => TimeSpan;

const middle = ([fromS, toS]: TimeSpan): number => (fromS + toS) / 2;
const step = ([fromS, toS]: TimeSpan): number => STEP * (toS - fromS);

const MOVES: readonly (readonly [words: string, keys: readonly string[], move: Move])[] = [
  ['closer', ['+', '='], (span, whole) => zoomed(span, whole, CLOSER, middle(span))],
  ['wider', ['-'], (span, whole) => zoomed(span, whole, 1 / CLOSER, middle(span))],
  ['earlier', ['ArrowLeft'], (span, whole) => shifted(span, whole, -step(span))],
  ['later', ['ArrowRight'], (span, whole) => shifted(span, whole, step(span))],
  ['whole run', ['0'], (_span, whole) => whole],
];

/** What moves a drawing over time without a mouse: buttons, and keys while one of them has the focus. */
export function TimeControls(controls: {
  readonly span: TimeSpan;
  readonly whole: TimeSpan;
  readonly onRest: (span: TimeSpan) => void;
  readonly children: ComponentChildren;
}) {
  const { span, whole, onRest } = controls;
  const isWhole = span[0] <= whole[0] && span[1] >= whole[1];
  const onKey = (event: KeyboardEvent): void => {
    const found = MOVES.find(([, keys]) => keys.includes(event.key));
    if (found === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    onRest(found[2](span, whole));
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the buttons within take the keys; the group only hears them
    <div class="time-controls" onKeyDown={onKey}>
      {MOVES.map(([words, keys, move]) => (
        <button
          key={words}
          type="button"
          aria-keyshortcuts={keys[0]}
          disabled={isWhole && words !== 'closer'}
          onClick={() => onRest(move(span, whole))}
        >
          {words}
        </button>
      ))}
      {controls.children}
    </div>
  );
}
