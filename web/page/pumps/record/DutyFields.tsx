import { demandOrigin } from '../../../../analysis/records/dutyRecord.ts';
import type { AskedQuantity } from '../../forms/askedQuantity.ts';
import { ChoiceOf, QuantityInput, WordsInput } from '../../forms/Fields.tsx';
import type { FormState } from '../../forms/formState.ts';
import { DUTY_POINT_FIELDS, EFFICIENCY_FIELD, FLOW_FIELD, PRIMING_FIELDS } from './pumpFields.ts';

const WETNESS = [
  ['W0', 'W0: solvent-washed, blown, dried'],
  ['W1', 'W1: oiled at assembly, turned by hand'],
  ['W2', 'W2: run, then drained a stated time'],
] as const;

function Quantities({ form, asked }: { readonly form: FormState; readonly asked: readonly AskedQuantity[] }) {
  return (
    <>
      {asked.map((field) => (
        <QuantityInput key={field.name} form={form} asked={field} />
      ))}
    </>
  );
}

function Origin({ form, name, of }: { readonly form: FormState; readonly name: string; readonly of: string }) {
  const choices = demandOrigin.options.map((origin): readonly [string, string] => [origin, origin]);
  return <ChoiceOf form={form} name={name} label={`who says so of the ${of}`} choices={choices} usual="house limit" />;
}

/** What the machine needs of the pump; everything may be left empty. */
export function DutyFields({ form }: { readonly form: FormState }) {
  return (
    <>
      <p>
        What the machine needs. Leave empty what nobody knows: its runs are then <em>measured</em>, never passed.
      </p>
      <div class="fields">
        <WordsInput form={form} name="duty.machine" label="machine" isOptional={true} />
        <Quantities form={form} asked={DUTY_POINT_FIELDS} />
      </div>
      <div class="fields">
        <Quantities form={form} asked={[FLOW_FIELD]} />
        <Origin form={form} name="duty.origin" of="flow" />
        <Quantities form={form} asked={[EFFICIENCY_FIELD]} />
        <Origin form={form} name="duty.efficiencyOrigin" of="efficiency" />
      </div>
      <div class="fields">
        <Quantities form={form} asked={PRIMING_FIELDS} />
        <ChoiceOf form={form} name="duty.wetness" label="pump prepared as" choices={WETNESS} usual="W1" />
        <Origin form={form} name="duty.primingOrigin" of="priming" />
      </div>
    </>
  );
}
