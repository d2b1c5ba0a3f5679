import type { PumpRecord } from '../../../../analysis/records/pumpRecord.ts';
import { type StripSheet, stripSheet } from '../../../../analysis/records/stripSheet.ts';
import { ChoiceOf, QuantityInput, TickOf, WordsInput } from '../../forms/Fields.tsx';
import { FormEnd } from '../../forms/FormEnd.tsx';
import type { FormState } from '../../forms/formState.ts';
import { parseTree } from '../../forms/parseRecord.ts';
import { UnitSwitch } from '../../forms/UnitSwitch.tsx';
import { useRecordForm } from '../../forms/useRecordForm.ts';
import { ask } from '../../shell/ask.ts';
import { Entry } from '../../shell/Entry.tsx';
import { address } from '../../shell/route.ts';
import { SumsAndSlip } from './StripSums.tsx';
import {
  BACKLASH,
  BUSHES,
  bushSection,
  END_FLOAT_SECTIONS,
  GAP_SECTIONS,
  LOCKINGS,
  PARTS_TEMPERATURE,
  type StripSection,
  TIP_PARTS,
  tipSection,
  WETTING_FIELDS,
} from './stripFields.ts';
import { chosenMethods, sectionsOf, stripBefore, stripTree } from './stripTree.ts';

const OCCASIONS = [
  ['as rebuilt', 'as rebuilt'],
  ['as found', 'as found'],
] as const;
const WETTINGS = [
  ['oiled', 'oiled'],
  ['bone dry', 'bone dry'],
  ['packed with grease', 'packed with grease'],
] as const;
const END_FLOAT_METHODS = [
  ['gasketAndDepths', 'from depths and the gasket'],
  ['direct', 'felt directly'],
] as const;
const TIP_METHODS = [
  ['diameters', 'from bore and tip diameter'],
  ['direct', 'felt directly'],
] as const;
const GAP_KINDS: readonly (readonly [string, string])[] = [
  ['none', 'not measured: no slip is predicted'],
  ...Object.entries(GAP_SECTIONS).map(([kind, { head }]): readonly [string, string] => [kind, head]),
];

function Section({ form, section }: { readonly form: FormState; readonly section: StripSection | undefined }) {
  if (section === undefined) return null;
  return (
    <fieldset>
      <legend>{section.head}</legend>
      <div class="fields">
        {section.asked.map((asked) => (
          <QuantityInput key={asked.name} form={form} asked={asked} />
        ))}
      </div>
    </fieldset>
  );
}

/** What a pump measured apart, and how it went back together; the sums and the slip they predict stand below as it is typed. */
export function StripForm({ pump, sheet }: { readonly pump: PumpRecord; readonly sheet: StripSheet | null }) {
  const { form, action, onInput, filing } = useRecordForm(`strip.${pump.id}`, stripBefore(pump, sheet));
  const { endFloat, tips, gaps } = chosenMethods(form, pump);
  const today = new Date().toISOString().slice(0, 10);
  const { tree, errors } = stripTree(form, pump, sheet, today);
  const live = parseTree(stripSheet, standIn(tree, today));

  const file = filing(
    stripSheet,
    () => ({ tree, errors }),
    async (record) => {
      await ask.saveStrip(record);
      return address.pump(pump.id);
    },
  );

  return (
    <form onSubmit={file} onInput={onInput} noValidate data-testid="strip-form">
      <Entry head="The sheet">
        <div class="fields">
          <ChoiceOf form={form} name="occasion" label="occasion" choices={OCCASIONS} usual="as rebuilt" />
          <WordsInput form={form} name="measuredOn" label="measured on" usual={today} help="year-month-day" />
          <WordsInput form={form} name="measuredBy" label="measured by" />
          <WordsInput
            form={form}
            name="instrument"
            label="measured with, where nothing else is said"
            usual="micrometer"
          />
          {PARTS_TEMPERATURE.map((asked) => (
            <QuantityInput key={asked.name} form={form} asked={asked} />
          ))}
        </div>
        <UnitSwitch />
      </Entry>
      <Entry head="End float">
        <div class="fields">
          <ChoiceOf
            form={form}
            name="endFloat.method"
            label="how it is known"
            choices={END_FLOAT_METHODS}
            usual="gasketAndDepths"
          />
          {endFloat === 'gasketAndDepths' && (
            <WordsInput form={form} name="endFloat.gasketMaterial" label="gasket" usual="paper" />
          )}
        </div>
        <Section form={form} section={END_FLOAT_SECTIONS[endFloat]} />
      </Entry>
      <Entry head="Tips">
        <div class="fields">
          <ChoiceOf form={form} name="tips.method" label="how they are known" choices={TIP_METHODS} usual="diameters" />
        </div>
        {TIP_PARTS.map((part) => (
          <Section key={part} form={form} section={tipSection(part, tips)} />
        ))}
      </Entry>
      <Entry head="Bushes, backlash">
        {BUSHES.map(({ where }, index) => (
          <details key={where}>
            <summary>Shaft in its bush: {where}</summary>
            <Section form={form} section={bushSection(index)} />
            <TickOf
              form={form}
              name={`bush.${index}.isDrained`}
              label="its far end drains to the suction side"
              usual={index === 0}
            />
          </details>
        ))}
        <Section form={form} section={BACKLASH} />
      </Entry>
      <Entry head="Shape of the gaps">
        <div class="fields">
          <ChoiceOf form={form} name="gapDimensions.kind" label="kind of pump" choices={GAP_KINDS} usual={gaps} />
        </div>
        <Section form={form} section={GAP_SECTIONS[gaps]} />
      </Entry>
      <Entry head="Together again">
        <div class="fields">
          <ChoiceOf form={form} name="wetting.how" label="wetted" choices={WETTINGS} usual="oiled" />
          {WETTING_FIELDS.map((asked) => (
            <QuantityInput key={asked.name} form={form} asked={asked} />
          ))}
          <WordsInput form={form} name="cleaning.how" label="cleaned" usual="washed and dried" />
          {sheet === null && (
            <>
              <WordsInput form={form} name="fasteners.where" label="fasteners, where" isOptional={true} />
              <WordsInput form={form} name="fasteners.count" label="how many" usual="1" />
              <ChoiceOf
                form={form}
                name="fasteners.locking"
                label="kept from turning by"
                choices={LOCKINGS.map((locking) => [locking, locking])}
                usual="none"
              />
            </>
          )}
          <WordsInput form={form} name="remarks" label="remarks" isOptional={true} />
        </div>
      </Entry>
      {sheet !== null && (
        <p class="faint">
          Faces, nicks, fasteners, turning torque and witness marks stay as on the last sheet; `slipwright strip` files
          one in which they are changed.
        </p>
      )}
      <Entry head="What it comes to">
        {live.ok ? (
          <SumsAndSlip sheet={live.value} pump={pump} />
        ) : (
          <p class="faint">Clearances stand here as soon as their measurements are whole.</p>
        )}
      </Entry>
      <FormEnd
        draft={form.draft}
        action={action}
        label="File the strip sheet"
        wrong={form.refused}
        shown={[
          'measuredOn',
          'measuredBy',
          ...sectionsOf(form, pump).flatMap(({ asked }) => asked.map(({ name }) => name)),
        ]}
      />
    </form>
  );
}

/** The same sheet with a name and a day, so that its sums can be read before those are typed. */
function standIn(tree: ReturnType<typeof stripTree>['tree'], today: string): ReturnType<typeof stripTree>['tree'] {
  if (typeof tree !== 'object' || tree === null) return tree;
  return { ...tree, measuredBy: 'nobody yet', measuredOn: today };
}
