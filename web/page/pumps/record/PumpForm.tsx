import { material } from '../../../../analysis/records/material.ts';
import { type PumpRecord, pumpRecord } from '../../../../analysis/records/pumpRecord.ts';
import { ChoiceOf, QuantityInput, TickOf, WordsInput } from '../../forms/Fields.tsx';
import { FormEnd } from '../../forms/FormEnd.tsx';
import { type FormState, plainText } from '../../forms/formState.ts';
import { UnitSwitch } from '../../forms/UnitSwitch.tsx';
import { useRecordForm } from '../../forms/useRecordForm.ts';
import { ask } from '../../shell/ask.ts';
import { Entry } from '../../shell/Entry.tsx';
import { address } from '../../shell/route.ts';
import { DutyFields } from './DutyFields.tsx';
import { GEOMETRY_KINDS, geometryFormOf } from './geometryFields.ts';
import { DUTY_FIELDS_ASKED, RELIEF_FIELD, RUNNING_FIELDS } from './pumpFields.ts';
import { geometryTree, pumpBefore, pumpTree } from './pumpTree.ts';
import { TypedGeometry } from './TypedGeometry.tsx';

const ROTATIONS = [
  ['clockwise', 'clockwise'],
  ['anticlockwise', 'anticlockwise'],
] as const;

function pairs(words: readonly string[]): readonly (readonly [string, string])[] {
  return words.map((word) => [word, word]);
}

/** Every field of the form by its name. */
function shownFields(kind: string): readonly string[] {
  const { asked, texts } = geometryFormOf(kind);
  const quantities = [...asked, ...RUNNING_FIELDS, RELIEF_FIELD, ...DUTY_FIELDS_ASKED];
  return ['name', 'serialNumber', 'maker', ...quantities.map(({ name }) => name), ...texts.map(({ name }) => name)];
}

function Materials({ form }: { readonly form: FormState }) {
  const choices: readonly (readonly [string, string])[] = [['', 'not known'], ...pairs(material.options)];
  return (
    <div class="fields">
      <ChoiceOf form={form} name="materials.body" label="body" choices={choices} usual="" />
      <ChoiceOf form={form} name="materials.gears" label="gears, rotors or screws" choices={choices} usual="" />
      <ChoiceOf form={form} name="materials.bushes" label="bushes" choices={choices} usual="" />
    </div>
  );
}

/** A pump's record, typed in: a new one, or the next version of one that is there. */
export function PumpForm({ pump }: { readonly pump: PumpRecord | null }) {
  const { form, action, onInput, filing } = useRecordForm(`pump.${pump?.id ?? 'new'}`, pumpBefore(pump));
  const kind = plainText(form, 'geometry.kind', 'externalGear');
  const { asked, ticks, texts, type } = geometryFormOf(kind);
  const geometry = geometryTree(form, kind).tree;

  const file = filing(
    pumpRecord,
    () => pumpTree(form, kind, pump),
    async (record) => address.pump((await ask.savePump(record)).id),
  );

  return (
    <form onSubmit={file} onInput={onInput} noValidate data-testid="pump-form">
      <Entry head="Identity">
        <div class="fields">
          <WordsInput form={form} name="name" label="what it is called" help="such as: bearing feed pump" />
          <WordsInput form={form} name="serialNumber" label="number" help="as stamped, or your own" />
          <WordsInput form={form} name="maker" label="maker" usual="not known" />
          <WordsInput form={form} name="owner" label="owner" isOptional={true} />
          <ChoiceOf form={form} name="type" label="type" choices={pairs(pumpRecord.shape.type.options)} usual={type} />
          <ChoiceOf
            form={form}
            name="rotation"
            label="rotation, seen on the shaft end"
            choices={ROTATIONS}
            usual="clockwise"
          />
          {RUNNING_FIELDS.map((field) => (
            <QuantityInput key={field.name} form={form} asked={field} />
          ))}
          <QuantityInput form={form} asked={RELIEF_FIELD} />
        </div>
        <TickOf
          form={form}
          name="mayRunDry"
          label="may turn dry for as long as a dry start takes (never: progressing cavity, rubber parts, face seals that need wetting)"
          usual={false}
        />
      </Entry>
      <Entry head="Geometry">
        <p class="faint">u is a standard uncertainty: half of what you would vouch for is near enough.</p>
        <UnitSwitch />
        <div class="fields">
          <ChoiceOf
            form={form}
            name="geometry.kind"
            label="how the swept volume is known"
            choices={GEOMETRY_KINDS}
            usual="externalGear"
          />
        </div>
        <div class="fields">
          {asked.map((field) => (
            <QuantityInput key={field.name} form={form} asked={field} />
          ))}
          {texts.map(({ name, label }) => (
            <WordsInput key={name} form={form} name={name} label={label} />
          ))}
        </div>
        {ticks.map(({ name, label, usual }) => (
          <TickOf key={name} form={form} name={name} label={label} usual={usual} />
        ))}
        <TypedGeometry geometry={geometry} />
      </Entry>
      <Entry head="Materials">
        <p class="faint">They decide how clearances change when the pump is warm.</p>
        <Materials form={form} />
      </Entry>
      <Entry head="Duty">
        <DutyFields form={form} />
      </Entry>
      <FormEnd
        draft={form.draft}
        action={action}
        label={pump === null ? 'File the pump record' : `File as version ${pump.version + 1}`}
        wrong={form.refused}
        shown={shownFields(kind)}
        other={
          <a href={pump === null ? address.pumps : address.pump(pump.id)} class="field-help">
            leave it for now; what is typed stays
          </a>
        }
      />
    </form>
  );
}
