import type { Draft, FormState } from '../../web/page/forms/formState.ts';

/** A form in which nobody has typed anything but these. */
export function typedForm(
  texts: Readonly<Record<string, string>>,
  before: FormState['before'],
  wasTried: boolean,
): FormState {
  const draft: Draft = {
    text: (name) => texts[name] ?? null,
    set: () => undefined,
    isEmpty: () => false,
    clear: () => undefined,
    undo: () => null,
  };
  return { draft, system: 'metric', before, refused: {}, wasTried };
}
