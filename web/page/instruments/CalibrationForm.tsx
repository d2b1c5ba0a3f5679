import { printedUnit } from '../../../analysis/formatStated.ts';
import { type BenchChannel, calibration } from '../../../analysis/records/benchRecord.ts';
import { ChoiceOf, QuantityInput, WordsInput } from '../forms/Fields.tsx';
import { FormEnd } from '../forms/FormEnd.tsx';
import { useRecordForm } from '../forms/useRecordForm.ts';
import { ask } from '../shell/ask.ts';
import { address } from '../shell/route.ts';
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
  const { form, action, onInput, filing } = useRecordForm(`calibration.${channel.channel}`, calibrationBefore(channel));
  const unit = printedUnit(channel.unit);
  const rows = Array.from({ length: rowCount(form, unit) }, (_, index) => pointFields(index, unit));
  const curve = typedCurve(form, unit);

  const file = filing(
    calibration,
    () => calibrationTree(form, channel, unit),
    async (record) => {
      await ask.calibrate({ channel: channel.channel, calibration: record });
      return address.instruments;
    },
  );

  return (
    <form onSubmit={file} onInput={onInput} noValidate data-testid="calibration-form">
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
        draft={form.draft}
        action={action}
        label="File the calibration"
        wrong={form.refused}
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
