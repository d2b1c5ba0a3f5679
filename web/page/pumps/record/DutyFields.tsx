import { ChoiceOf, type FormState, QuantityInput, WordsInput } from '../../forms/Fields.tsx';
import { DEMAND_ORIGINS, DUTY_LIMIT_FIELDS, DUTY_POINT_FIELDS, PRIMING_FIELDS } from './pumpFields.ts';

const WETNESS = [
  ['W0', 'W0: solvent-washed, blown, dried'],
  ['W1', 'W1: oiled at assembly, turned by hand'],
  ['W2', 'W2: run, then drained a stated time'],
] as const;

/** What the machine needs of the pump; everything may be left empty. */
export function DutyFields({ form }: { readonly form: FormState }) {
  return (
    <>
      <p>
        What the machine needs. Leave empty what nobody knows: its runs are then <em>measured</em>, never passed.
      </p>
      <div class="fields">
        <WordsInput form={form} name="duty.machine" label="machine" isOptional={true} />
        <ChoiceOf
          form={form}
          name="duty.origin"
          label="where the demands come from"
          choices={DEMAND_ORIGINS.map((origin) => [origin, origin])}
          usual="house limit"
        />
      </div>
      <div class="fields">
        {[...DUTY_LIMIT_FIELDS, ...DUTY_POINT_FIELDS].map((field) => (
          <QuantityInput key={field.name} form={form} asked={field} />
        ))}
      </div>
      <div class="fields">
        {PRIMING_FIELDS.map((field) => (
          <QuantityInput key={field.name} form={form} asked={field} />
        ))}
        <ChoiceOf form={form} name="duty.wetness" label="pump prepared as" choices={WETNESS} usual="W1" />
      </div>
    </>
  );
}
