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

/** Makes a choice of the person at this browser the same after a reload. */
export function keepChoice<Choice extends string>(key: string, choice: Signal<Choice>, known: readonly Choice[]): void {
  const stored = readKept(key);
  choice.value = known.find((candidate) => candidate === stored) ?? choice.value;
  choice.subscribe((value) => keep(key, value));
}

/** Something that is on or off at this browser, the same after a reload. */
export function keptSwitch(key: string, first: 'on' | 'off'): Signal<'on' | 'off'> {
  const choice = signal<'on' | 'off'>(first);
  keepChoice(key, choice, ['on', 'off']);
  return choice;
}
