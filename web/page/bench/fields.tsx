import { printedUnit } from '../../../analysis/formatStated.ts';
import type { Choice } from './choices.ts';
import type { NumberField } from './numberFields.ts';

export function TextInput(input: { readonly name: string; readonly label: string; readonly initial: string }) {
  return (
    <label class="field">
      <span>{input.label}</span>
      <input type="text" name={input.name} defaultValue={input.initial} required maxLength={100} autocomplete="off" />
    </label>
  );
}

export function NumberInput({ of, initial }: { readonly of: NumberField; readonly initial: string }) {
  return (
    <label class="field">
      <span>{of.label}</span>
      <span class="with-unit">
        <input type="number" step="any" inputMode="decimal" name={of.name} defaultValue={initial} required />
        <span>{printedUnit(of.unitSymbol).replace('(a)', '')}</span>
      </span>
    </label>
  );
}

export function ChoiceInput(input: {
  readonly name: string;
  readonly label: string;
  readonly choices: readonly Choice<string>[];
  readonly initial: string;
  readonly onChoice?: (value: string) => void;
}) {
  return (
    <label class="field">
      <span>{input.label}</span>
      <select name={input.name} onChange={(event) => input.onChoice?.(event.currentTarget.value)}>
        {input.choices.map(({ value, words }) => (
          <option key={value} value={value} selected={value === input.initial}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
}
