import { type Signal, signal } from '@preact/signals';
import { useMemo } from 'preact/hooks';
import { keep, readKept } from '../shell/kept.ts';
import type { Draft } from './formState.ts';

type Texts = Readonly<Record<string, string>>;

/** By form: two that show the same form show the same words. */
const drafts = new Map<string, Draft>();

function readTexts(key: string): Texts {
  try {
    const kept: unknown = JSON.parse(readKept(`draft.${key}`) ?? '{}');
    if (typeof kept !== 'object' || kept === null) return {};
    return Object.fromEntries(Object.entries(kept).filter((entry) => typeof entry[1] === 'string'));
  } catch {
    return {};
  }
}

function createDraft(key: string): Draft {
  const texts: Signal<Texts> = signal(readTexts(key));
  const thrownAway = signal<Texts | null>(null);
  const put = (next: Texts): void => {
    texts.value = next;
    keep(`draft.${key}`, Object.keys(next).length === 0 ? null : JSON.stringify(next));
  };
  return {
    text: (name) => texts.value[name] ?? null,
    set: (name, text) => put({ ...texts.value, [name]: text }),
    isEmpty: () => Object.keys(texts.value).length === 0,
    clear: () => {
      if (Object.keys(texts.value).length > 0) thrownAway.value = texts.value;
      put({});
    },
    undo: () => {
      const before = thrownAway.value;
      if (before === null) return null;
      return () => {
        thrownAway.value = null;
        put({ ...before, ...texts.value });
      };
    },
  };
}

/** The draft of a form by its key. */
export function useDraft(key: string): Draft {
  return useMemo(() => {
    const draft = drafts.get(key) ?? createDraft(key);
    drafts.set(key, draft);
    return draft;
  }, [key]);
}
