import { useState } from 'preact/hooks';
import { printedUnit } from '../../../analysis/formatStated.ts';
import { type BenchChannel, calibration } from '../../../analysis/records/benchRecord.ts';
import { useDraft } from '../forms/draft.ts';
import { ChoiceOf, QuantityInput, WordsInput } from '../forms/Fields.tsx';
import { FormEnd, focusFirstWrong } from '../forms/FormEnd.tsx';
import type { FormState } from '../forms/formState.ts';
import { parseTree } from '../forms/parseRecord.ts';
import { ask } from '../shell/ask.ts';
import { address, goTo } from '../shell/route.ts';
import { useAction } from '../shell/useAction.ts';
import { unitSystem } from '../words/unitSystem.ts';
import {
  calibrationBefore,
  calibrationTree,
  errorFields,
  pointFields,
  referenceField,
  rowCount,
  typedCurve,
} from './calibrationTree.ts';
import { FittedCurve } from './FittedCurve.tsx';

const DEGREES = [
  ['1', '1: a straight line'],
  ['2', '2'],
  ['3', '3'],
] as const;

/** A channel's new calibration; its points are fitted as they are typed. */
export function CalibrationForm({ channel }: { readonly channel: BenchChannel }) {
  const draft = useDraft(`calibration.${channel.channel}`);
  const action = useAction();
  const [refused, setRefused] = useState<FormState['refused']>({});
  const [wasTried, setTried] = useState(false);
  const form: FormState = { draft, system: unitSystem.value, before: calibrationBefore(channel), refused, wasTried };
  const unit = printedUnit(channel.unit);
  const rows = Array.from({ length: rowCount(form, unit) }, (_, index) => pointFields(index, unit));
  const curve = typedCurve(form, unit);

  const file = (event: SubmitEvent): void => {
    event.preventDefault();
    setTried(true);
    const { tree, errors } = calibrationTree(form, channel, unit);
    const read = parseTree(calibration, tree);
    setRefused({ ...(read.ok ? {} : read.reason), ...errors });
    if (event.currentTarget instanceof HTMLFormElement) focusFirstWrong(event.currentTarget);
    if (!read.ok || Object.keys(errors).length > 0) return;
    action.run(async () => {
      await ask.calibrate({ channel: channel.channel, calibration: read.value });
      draft.clear();
      goTo(address.instruments);
    });
  };

  return (
    <form onSubmit={file} onInput={() => setRefused({})} noValidate data-testid="calibration-form">
      <div class="fields">
        <WordsInput
          form={form}
          name="reference"
          label="certificate or procedure"
          help="its number, and who issued it"
        />
        <WordsInput form={form} name="calibratedOn" label="calibrated on" help="year-month-day" />
        <WordsInput form={form} name="dueOn" label="due on" help="year-month-day" />
        {errorFields(unit).map((asked) => (
          <QuantityInput key={asked.name} form={form} asked={asked} />
        ))}
      </div>
      <h3>Points, where there are any</h3>
      <p class="faint">
        What the instrument gave, as it comes over the line, against what the reference stood at. Without points the
        scale of the bench record stays.
      </p>
      <div class="fields point-fields">
        {rows.flat().map((asked) => (
          <QuantityInput key={asked.name} form={form} asked={asked} />
        ))}
      </div>
      {curve.points.length > 0 && (
        <>
          <div class="fields">
            <ChoiceOf form={form} name="curve.degree" label="degree of the curve" choices={DEGREES} usual="1" />
            <QuantityInput form={form} asked={referenceField(unit)} />
          </div>
          {curve.points.length > 2 && <FittedCurve curve={curve} unit={unit} />}
        </>
      )}
      <FormEnd
        draft={draft}
        action={action}
        label="File the calibration"
        wrong={refused}
        shown={[
          'reference',
          'calibratedOn',
          'dueOn',
          ...[...errorFields(unit), referenceField(unit), ...rows.flat()].map(({ name }) => name),
        ]}
      />
    </form>
  );
}
