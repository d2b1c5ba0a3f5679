import { useState } from 'preact/hooks';
import type { z } from 'zod';
import { goTo } from '../shell/route.ts';
import { type Action, useAction } from '../shell/useAction.ts';
import { unitSystem } from '../words/unitSystem.ts';
import { useDraft } from './draft.ts';
import { focusFirstWrong } from './FormEnd.tsx';
import type { FormState } from './formState.ts';
import type { Tree } from './nested.ts';
import { parseTree } from './parseRecord.ts';

/** A form in which a record is typed and filed. */
export type RecordForm = {
  readonly form: FormState;
  readonly action: Action;
  /** Something is typed again: what was refused before does not stand any more. */
  readonly onInput: () => void;
  /**
   * Handles the sending: reads by the schema what is typed, names what is wrong, or files it and goes on.
   *
   * @param typed - what is typed, and by field what cannot be read [-]
   * @param file - files the record. @returns the address to go to [-]
   */
  readonly filing: <Schema extends z.ZodType>(
    schema: Schema,
    typed: () => { readonly tree: Tree; readonly errors: Readonly<Record<string, string>> },
    file: (record: z.output<Schema>) => Promise<string>,
  ) => (event: SubmitEvent) => void;
};

export function useRecordForm(draftKey: string, before: FormState['before']): RecordForm {
  const draft = useDraft(draftKey);
  const action = useAction();
  const [refused, setRefused] = useState<FormState['refused']>({});
  const [wasTried, setTried] = useState(false);
  const filing: RecordForm['filing'] = (schema, typed, file) => (event) => {
    event.preventDefault();
    setTried(true);
    if (event.currentTarget instanceof HTMLFormElement) focusFirstWrong(event.currentTarget);
    const { tree, errors } = typed();
    const read = parseTree(schema, tree);
    setRefused({ ...(read.ok ? {} : read.reason), ...errors });
    if (!read.ok || Object.keys(errors).length > 0) return;
    action.run(async () => {
      const next = await file(read.value);
      draft.clear();
      goTo(next);
    });
  };
  return {
    form: { draft, system: unitSystem.value, before, refused, wasTried },
    action,
    onInput: () => setRefused({}),
    filing,
  };
}
