import { useState } from 'preact/hooks';
import { whyNeverDry } from '../../../analysis/guide/dryTurning.ts';
import type { PumpList, StartDefaults, ZeroCheckRequest, ZeroCheckView } from '../../api.ts';
import { ask } from '../shell/ask.ts';
import { Awaited, Refusal } from '../shell/Entry.tsx';
import { address } from '../shell/route.ts';
import { useAction } from '../shell/useAction.ts';
import { useAnswer } from '../shell/useAnswer.ts';
import { Cautions } from './Cautions.tsx';
import { BASIS_CHOICES, chosen, KIND_CHOICES, LABEL_CHOICES, WETNESS_CHOICES } from './choices.ts';
import { DRY_KINDS, DryCaution } from './DryCaution.tsx';
import { ChoiceInput, NumberInput, TextInput } from './fields.tsx';
import { OIL_FIELDS, oilFrom, SET_UP_FIELDS, setUpFrom, typedDefault } from './numberFields.ts';
import { watchRun } from './watchedRun.ts';
import { ZeroCheckFields } from './ZeroCheckFields.tsx';

/** Text of a form field, blanks around it dropped. */
function text(form: FormData, name: string): string {
  const typed = form.get(name);
  return typeof typed === 'string' ? typed.trim() : '';
}

/** A field that lacks something cannot be shown while it is folded away. */
function unfold(event: Event): void {
  if (event.target instanceof Element) event.target.closest('details')?.setAttribute('open', '');
}

type FormProps = {
  readonly defaults: StartDefaults;
  /** A practice bench can step itself. */
  readonly isPractice: boolean;
};

function FormOf({ pumps, defaults, isPractice }: FormProps & { readonly pumps: PumpList }) {
  const action = useAction();
  const [kind, setKind] = useState('delivery');
  const [pumpId, setPumpId] = useState(pumps[0]?.id ?? '');
  const [wetness, setWetness] = useState(defaults.setUp.wetness);
  const [zero, setZero] = useState<ZeroCheckView | null>(null);
  const pump = pumps.find(({ id }) => id === pumpId);
  const isExample = defaults.origin === 'example';
  const isDryKind = DRY_KINDS.has(kind);
  const mustNotRunDry = isDryKind && pump !== undefined && whyNeverDry(pump) !== null;

  const oilOf = (form: FormData) =>
    oilFrom(form, text(form, 'oilName'), chosen(BASIS_CHOICES, form.get('basis'), defaults.oil.viscosityBasis));
  const setUpOf = (form: FormData) =>
    setUpFrom(form, chosen(WETNESS_CHOICES, form.get('wetness'), defaults.setUp.wetness), defaults.setUp);
  const zeroRequest = (form: FormData): ZeroCheckRequest => ({
    barometerPa: setUpOf(form).barometerPa.value,
    oilDensityKgPerM3: oilOf(form).densityAt15CKgPerM3,
  });

  const start = (event: SubmitEvent): void => {
    event.preventDefault();
    if (!(event.currentTarget instanceof HTMLFormElement)) return;
    const form = new FormData(event.currentTarget);
    action.run(async () => {
      const run = await ask.startRun({
        kind: chosen(KIND_CHOICES, form.get('kind'), 'delivery'),
        pumpId,
        label: chosen(LABEL_CHOICES, form.get('label'), 'as rebuilt'),
        operator: text(form, 'operator'),
        oil: oilOf(form),
        isByHand: form.get('byHand') !== null,
        zeroCheck: zero?.zeroCheck ?? null,
        setUp: setUpOf(form),
      });
      watchRun(run.id);
      window.scrollTo(0, 0);
    });
  };

  return (
    <form onSubmit={start} onInvalidCapture={unfold} data-testid="start-form">
      <div class="fields">
        <ChoiceInput name="kind" label="kind of run" choices={KIND_CHOICES} initial={kind} onChoice={setKind} />
        <ChoiceInput
          name="pump"
          label="pump"
          choices={pumps.map(({ id, name, serialNumber }) => ({ value: id, words: `${serialNumber}, ${name}` }))}
          initial={pumpId}
          onChoice={setPumpId}
        />
        <ChoiceInput name="label" label="state of the pump" choices={LABEL_CHOICES} initial="as rebuilt" />
        <TextInput name="operator" label="operator" initial={defaults.operator} />
      </div>
      {isExample && (
        <p class="look-here">
          No run on this bench is known: set-up and oil below are only examples. Put in your own before you start.
        </p>
      )}
      <details open={isExample}>
        <summary>Set-up: barometer, lift, suction pipe, wetness</summary>
        <div class="fields">
          {SET_UP_FIELDS.map((of) => (
            <NumberInput key={of.name} of={of} initial={typedDefault(of, defaults)} />
          ))}
          <ChoiceInput
            name="wetness"
            label="how the pump was prepared"
            choices={WETNESS_CHOICES}
            initial={wetness}
            onChoice={(value) => setWetness(chosen(WETNESS_CHOICES, value, wetness))}
          />
        </div>
      </details>
      <details open={isExample}>
        <summary>Oil: {defaults.oil.name}</summary>
        <div class="fields">
          <TextInput name="oilName" label="oil" initial={defaults.oil.name} />
          <ChoiceInput name="basis" label="viscosity" choices={BASIS_CHOICES} initial={defaults.oil.viscosityBasis} />
          {OIL_FIELDS.map((of) => (
            <NumberInput key={of.name} of={of} initial={typedDefault(of, defaults)} />
          ))}
        </div>
      </details>
      <ZeroCheckFields taken={zero} requestFrom={zeroRequest} onTaken={setZero} />
      {isPractice && (
        <label class="choice">
          <input type="checkbox" name="byHand" />
          <span>Step this practice run by hand; otherwise the guide sets motor and valve by itself.</span>
        </label>
      )}
      <Cautions />
      {isDryKind && pump !== undefined && <DryCaution pump={pump} kind={kind} wetness={wetness} />}
      <button type="submit" class="chief" disabled={action.isUnderWay || mustNotRunDry || pump === undefined}>
        Start recording
      </button>
      <Refusal text={action.refusal} />
    </form>
  );
}

/** What must be known before the first byte, filled in from the last run. */
export function StartForm(props: FormProps) {
  const pumps = useAnswer('pumps', ask.pumps);
  return (
    <Awaited answer={pumps}>
      {(list) =>
        list.length === 0 ? (
          <p>
            No pump record is in the archive yet, and a run needs one: <a href={address.newPump}>write the first</a>.
          </p>
        ) : (
          <FormOf {...props} pumps={list} />
        )
      }
    </Awaited>
  );
}
