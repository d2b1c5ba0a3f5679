import { useState } from 'preact/hooks';
import { whyNeverDry } from '../../../analysis/guide/dryTurning.ts';
import type { PumpList, StartDefaults, ZeroCheckView } from '../../api.ts';
import { useDraft } from '../forms/draft.ts';
import { ChoiceOf, QuantityInput, TickOf, WordsInput } from '../forms/Fields.tsx';
import { FormEnd, focusFirstWrong } from '../forms/FormEnd.tsx';
import { type FormState, plainText } from '../forms/formState.ts';
import { readFields } from '../forms/readFields.ts';
import { UnitSwitch } from '../forms/UnitSwitch.tsx';
import { ask } from '../shell/ask.ts';
import { Awaited } from '../shell/Entry.tsx';
import { address } from '../shell/route.ts';
import { useAction } from '../shell/useAction.ts';
import { useAnswer } from '../shell/useAnswer.ts';
import { unitSystem } from '../words/unitSystem.ts';
import { areCautionsConfirmed, Cautions } from './Cautions.tsx';
import { BASIS_CHOICES, chosen, KIND_CHOICES, LABEL_CHOICES, offered, WETNESS_CHOICES } from './choices.ts';
import { DRY_KINDS, DryCaution } from './DryCaution.tsx';
import { OIL_FIELDS, oilFrom, SET_UP_FIELDS, setUpFrom, startBefore } from './startFields.ts';
import { watchRun } from './watchedRun.ts';
import { ZeroCheckFields } from './ZeroCheckFields.tsx';

type FormProps = {
  readonly defaults: StartDefaults;
  /** A practice bench can step itself. */
  readonly isPractice: boolean;
};

const SHOWN = ['operator', 'cautions', 'oil.name', ...[...SET_UP_FIELDS, ...OIL_FIELDS].map(({ name }) => name)];

/** A field that is wrong cannot be seen while it is folded away. */
function unfoldWrong(form: HTMLFormElement): void {
  requestAnimationFrame(() => {
    for (const field of form.querySelectorAll('details [aria-invalid="true"]')) {
      field.closest('details')?.setAttribute('open', '');
    }
  });
  focusFirstWrong(form);
}

function FormOf({ pumps, defaults, isPractice }: FormProps & { readonly pumps: PumpList }) {
  const action = useAction();
  const draft = useDraft('start');
  const [wasTried, setTried] = useState(false);
  const [zero, setZero] = useState<ZeroCheckView | null>(null);
  const form: FormState = { draft, system: unitSystem.value, before: startBefore(defaults), refused: {}, wasTried };
  const words = (name: string, usual = ''): string => plainText(form, name, usual).trim();

  const kind = chosen(KIND_CHOICES, words('kind'), 'delivery');
  const wetness = chosen(WETNESS_CHOICES, words('setUp.wetness'), defaults.setUp.wetness);
  const pump = pumps.find(({ id }) => id === words('pumpId')) ?? pumps[0];
  const isExample = defaults.origin === 'example';
  const isDryKind = DRY_KINDS.has(kind);
  const mustNotRunDry = isDryKind && pump !== undefined && whyNeverDry(pump) !== null;

  const { values, errors } = readFields(form, [...SET_UP_FIELDS, ...OIL_FIELDS]);
  const wrong = {
    ...errors,
    ...(words('operator') === '' ? { operator: 'is needed' } : {}),
    ...(words('oil.name') === '' ? { 'oil.name': 'is needed' } : {}),
    ...(areCautionsConfirmed.value ? {} : { cautions: 'not confirmed' }),
  };
  const barometerPa = values['setUp.barometerPa.value'];
  const oilDensityKgPerM3 = values['oil.densityAt15CKgPerM3'];
  const zeroRequest =
    barometerPa === undefined || oilDensityKgPerM3 === undefined ? null : { barometerPa, oilDensityKgPerM3 };

  const start = (event: SubmitEvent): void => {
    event.preventDefault();
    setTried(true);
    const isWrong = Object.keys(wrong).length > 0;
    if (isWrong && event.currentTarget instanceof HTMLFormElement) unfoldWrong(event.currentTarget);
    if (isWrong || pump === undefined) return;
    action.run(async () => {
      const run = await ask.startRun({
        kind,
        pumpId: pump.id,
        label: chosen(LABEL_CHOICES, words('label'), 'as rebuilt'),
        operator: words('operator'),
        oil: oilFrom(
          values,
          words('oil.name'),
          chosen(BASIS_CHOICES, words('oil.viscosityBasis'), defaults.oil.viscosityBasis),
        ),
        isByHand: words('byHand') === 'yes',
        zeroCheck: zero?.zeroCheck ?? null,
        setUp: setUpFrom(values, wetness, defaults.setUp),
      });
      watchRun(run.id);
      window.scrollTo(0, 0);
    });
  };

  return (
    <form onSubmit={start} noValidate data-testid="start-form">
      <div class="fields">
        <ChoiceOf form={form} name="kind" label="kind of run" choices={offered(KIND_CHOICES)} usual="delivery" />
        <ChoiceOf
          form={form}
          name="pumpId"
          label="pump"
          choices={pumps.map(({ id, name, serialNumber }) => [id, `${serialNumber}, ${name}`])}
          usual={pump?.id ?? ''}
        />
        <ChoiceOf
          form={form}
          name="label"
          label="state of the pump"
          choices={offered(LABEL_CHOICES)}
          usual="as rebuilt"
        />
        <WordsInput form={form} name="operator" label="operator" />
      </div>
      {isExample && (
        <p class="look-here">
          No run on this bench is known: set-up and oil below are only examples. Put in your own before you start.
        </p>
      )}
      <details open={isExample}>
        <summary>Set-up: barometer, lift, suction pipe, wetness</summary>
        <UnitSwitch />
        <div class="fields">
          {SET_UP_FIELDS.map((asked) => (
            <QuantityInput key={asked.name} form={form} asked={asked} />
          ))}
          <ChoiceOf
            form={form}
            name="setUp.wetness"
            label="how the pump was prepared"
            choices={offered(WETNESS_CHOICES)}
            usual={defaults.setUp.wetness}
          />
        </div>
      </details>
      <details open={isExample}>
        <summary>Oil: {words('oil.name')}</summary>
        <div class="fields">
          <WordsInput form={form} name="oil.name" label="oil" />
          <ChoiceOf
            form={form}
            name="oil.viscosityBasis"
            label="viscosity"
            choices={offered(BASIS_CHOICES)}
            usual={defaults.oil.viscosityBasis}
          />
          {OIL_FIELDS.map((asked) => (
            <QuantityInput key={asked.name} form={form} asked={asked} />
          ))}
        </div>
      </details>
      <ZeroCheckFields taken={zero} request={zeroRequest} onTaken={setZero} />
      {isPractice && (
        <TickOf
          form={form}
          name="byHand"
          label="Step this practice run by hand; otherwise the guide sets motor and valve by itself."
          usual={false}
        />
      )}
      <Cautions isMissed={wasTried && !areCautionsConfirmed.value} />
      {isDryKind && pump !== undefined && <DryCaution pump={pump} kind={kind} wetness={wetness} />}
      <FormEnd
        draft={draft}
        action={action}
        label="Start recording"
        isBarred={mustNotRunDry || pump === undefined}
        wrong={wasTried ? wrong : {}}
        shown={SHOWN}
      />
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
