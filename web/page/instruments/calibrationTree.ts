import type { CurvePoints } from '../../../analysis/calibration/fitCurve.ts';
import type { BenchChannel } from '../../../analysis/records/benchRecord.ts';
import type { AskedQuantity } from '../forms/askedQuantity.ts';
import { type FormState, plainText, quantityText } from '../forms/formState.ts';
import { leafAt, type Tree } from '../forms/nested.ts';
import { readFields } from '../forms/readFields.ts';

const PLAIN = { metric: '1', US: '1' } as const;

/** Points of a calibration that a form holds at most. */
const MOST_POINTS = 24;

export function errorFields(unit: string): readonly AskedQuantity[] {
  return [
    { name: 'gain.standardUncertainty', label: 'u of the gain, of the reading', quantity: 'ratio', atLeast: 0 },
    {
      name: 'offset.standardUncertainty',
      label: `u of the offset [${unit}]`,
      quantity: 'ratio',
      symbols: PLAIN,
      atLeast: 0,
    },
  ];
}

export function referenceField(unit: string): AskedQuantity {
  return {
    name: 'curve.referenceStandardUncertainty',
    label: `u of the reference at each point [${unit}]`,
    quantity: 'ratio',
    symbols: PLAIN,
    atLeast: 0,
    usual: '0',
  };
}

export function pointFields(index: number, unit: string): readonly AskedQuantity[] {
  const number = index + 1;
  return [
    { name: `curve.points.${index}.raw`, label: `raw ${number}`, quantity: 'ratio', symbols: PLAIN, isOptional: true },
    {
      name: `curve.points.${index}.reference`,
      label: `reference ${number} [${unit}]`,
      quantity: 'ratio',
      symbols: PLAIN,
      isOptional: true,
    },
  ];
}

/** What stands in a field before anybody types: the calibration in force. */
export function calibrationBefore({ calibration }: BenchChannel): FormState['before'] {
  return (name) => {
    if (name === 'calibratedOn' || name === 'dueOn' || name === 'reference') return null;
    const leaf = leafAt(calibration, name);
    return typeof leaf === 'number' || typeof leaf === 'string' ? leaf : null;
  };
}

/** How many rows of points stand in the form: those that are filled, and one more to go on. */
export function rowCount(form: FormState, unit: string): number {
  const filled = Array.from({ length: MOST_POINTS }, (_, index) => index).filter((index) =>
    pointFields(index, unit).some((field) => quantityText(form, field).trim() !== ''),
  );
  return Math.min(MOST_POINTS, Math.max(4, (filled.at(-1) ?? -1) + 2));
}

/** The points as typed so far. */
export function typedCurve(form: FormState, unit: string): CurvePoints {
  const rows = Array.from({ length: MOST_POINTS }, (_, index) => pointFields(index, unit));
  const { values } = readFields(form, rows.flat());
  return {
    degree: Number(plainText(form, 'curve.degree', '1')),
    points: rows.flatMap((_, index) => {
      const raw = values[`curve.points.${index}.raw`];
      const reference = values[`curve.points.${index}.reference`];
      return raw === undefined || reference === undefined ? [] : [{ raw, reference }];
    }),
  };
}

/** The calibration as typed, before its schema reads it, and what is wrong with its quantities. */
export function calibrationTree(form: FormState, channel: BenchChannel, unit: string) {
  const rows = Array.from({ length: MOST_POINTS }, (_, index) => pointFields(index, unit)).flat();
  const curve = typedCurve(form, unit);
  const { values, errors } = readFields(form, [
    ...errorFields(unit),
    ...(curve.points.length > 0 ? [referenceField(unit)] : []),
    ...rows,
  ]);
  const lonely = rows.filter(
    ({ name }) => values[name] === undefined && errors[name] === undefined && values[partner(name)] !== undefined,
  );
  const words = (name: string): string => plainText(form, name).trim();
  const { calibration } = channel;
  const error = (name: 'gain' | 'offset'): Tree => ({
    standardUncertainty: values[`${name}.standardUncertainty`] ?? null,
    shape: calibration?.[name].shape ?? 'normal',
  });
  const tree: Tree = {
    reference: words('reference'),
    calibratedOn: words('calibratedOn'),
    dueOn: words('dueOn'),
    gain: error('gain'),
    offset: error('offset'),
    accuracyClass: calibration?.accuracyClass ?? null,
    ...(calibration === null ? {} : { linearity: calibration.linearity, driftPerYear: calibration.driftPerYear }),
    curve:
      curve.points.length === 0
        ? null
        : {
            degree: curve.degree,
            points: curve.points,
            referenceStandardUncertainty: values['curve.referenceStandardUncertainty'] ?? null,
          },
  };
  return {
    tree,
    errors: { ...errors, ...Object.fromEntries(lonely.map(({ name }) => [name, 'is missing beside its partner'])) },
  };
}

function partner(name: string): string {
  return name.endsWith('.raw') ? name.replace(/raw$/, 'reference') : name.replace(/reference$/, 'raw');
}
