import { useEffect } from 'preact/hooks';
import { ask } from '../shell/ask.ts';
import { Refusal } from '../shell/Entry.tsx';
import { useAction } from '../shell/useAction.ts';
import { markKeys } from './benchSwitches.ts';

/** What is seen at a bench again and again. */
const MARKS: readonly string[] = ['oil seen', 'valve touched', 'knock or rattle', 'leak', 'air in the oil'];

function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.closest('input, select, textarea') !== null;
}

/** Marks by one tap, or by one key while nothing is being typed. */
export function QuickMarks() {
  const action = useAction();
  const hasKeys = markKeys.value === 'on';
  const mark = (text: string): void => {
    action.run(async () => {
      await ask.mark({ text });
    });
  };
  useEffect(() => {
    if (!hasKeys) return;
    const pressed = (event: KeyboardEvent): void => {
      if (event.ctrlKey || event.altKey || event.metaKey || event.repeat || isTyping(event.target)) return;
      const text = MARKS[Number(event.key) - 1];
      if (text !== undefined) mark(text);
    };
    window.addEventListener('keydown', pressed);
    return () => window.removeEventListener('keydown', pressed);
  }, [hasKeys]);
  return (
    <div class="quick-marks" data-testid="quick-marks">
      {MARKS.map((text, index) => (
        <button key={text} type="button" onClick={() => mark(text)} aria-label={`Mark: ${text}`}>
          {hasKeys && <span class="key">{index + 1}</span>} {text}
        </button>
      ))}
      <Refusal text={action.refusal} />
    </div>
  );
}
