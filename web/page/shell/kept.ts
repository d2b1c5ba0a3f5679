import { type Signal, signal } from '@preact/signals';

/** What this browser keeps under a key; null where nothing is kept or nothing may be. */
export function readKept(key: string): string | null {
  try {
    return localStorage.getItem(`slipwright.${key}`);
  } catch {
    return null;
  }
}

/** Keeps a text in this browser; a browser that keeps nothing loses it at the next reload and nothing else. */
export function keep(key: string, text: string | null): void {
  try {
    if (text === null) localStorage.removeItem(`slipwright.${key}`);
    else localStorage.setItem(`slipwright.${key}`, text);
  } catch {
    // A browser that refuses storage still works the page.
  }
}

/** A choice of the person at this browser, the same after a reload. */
export function keptChoice<Choice extends string>(
  key: string,
  choices: readonly Choice[],
  first: Choice,
): Signal<Choice> {
  const stored = readKept(key);
  const choice = signal(choices.find((candidate) => candidate === stored) ?? first);
  choice.subscribe((value) => keep(key, value));
  return choice;
}
