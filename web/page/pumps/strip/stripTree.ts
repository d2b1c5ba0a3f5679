import type { PumpRecord } from '../../../../analysis/records/pumpRecord.ts';
import type { StripSheet } from '../../../../analysis/records/stripSheet.ts';
import { type FormState, plainText, quantityText } from '../../forms/formState.ts';
import { leafAt, nested, type Tree } from '../../forms/nested.ts';
import { readFields } from '../../forms/readFields.ts';
import {
  BACKLASH,
  BUSHES,
  bushSection,
  END_FLOAT_SECTIONS,
  GAP_SECTIONS,
  PARTS_TEMPERATURE,
  type StripSection,
  TIP_PARTS,
  tipSection,
  WETTING_FIELDS,
} from './stripFields.ts';

/** Where a section of the form stands in a sheet; null: the sheet has no such part. */
function placeInSheet(sheet: StripSheet | null, name: string): string {
  const [section = '', which = '', ...rest] = name.split('.');
  if (section === 'tip') {
    const index = (sheet?.tipClearances ?? []).findIndex(({ part }) => part === which);
    return ['tipClearances', index, ...rest].join('.');
  }
  if (section === 'bush') {
    const index = (sheet?.shaftsInBushes ?? []).findIndex(({ where }) => where === BUSHES[Number(which)]?.where);
    return ['shaftsInBushes', index, ...rest].join('.');
  }
  return name;
}

/** What the pump's own record says of the shape of its gaps, before anybody measures it again. */
function fromPump(pump: PumpRecord, name: string): unknown {
  const { geometry } = pump;
  if (geometry.kind !== 'externalGear') return undefined;
  const driven = geometry.drivenTipDiameterM ?? geometry.tipDiameterM;
  const known: Readonly<Record<string, number>> = {
    'gapDimensions.toothCount.driver': geometry.toothCount.driver,
    'gapDimensions.toothCount.driven': geometry.toothCount.driven,
    'gapDimensions.tipDiameterM.driver': geometry.tipDiameterM.value,
    'gapDimensions.tipDiameterM.driven': driven.value,
    'gapDimensions.faceWidthM': geometry.faceWidthM.value,
  };
  return known[name];
}

/** What stands in a field before anybody types: the last sheet's, else what the pump's record says. */
export function stripBefore(pump: PumpRecord, sheet: StripSheet | null): FormState['before'] {
  return (name) => {
    // The day is not the last sheet's: it is measured again.
    if (name === 'measuredOn') return null;
    const leaf = leafAt(sheet, placeInSheet(sheet, name)) ?? fromPump(pump, name);
    if (typeof leaf === 'boolean') return leaf ? 'yes' : 'no';
    return typeof leaf === 'number' || typeof leaf === 'string' ? leaf : null;
  };
}

/** The kinds and methods that stand in the form. */
export function chosenMethods(form: FormState, pump: PumpRecord) {
  const gapKind = GAP_SECTIONS[pump.geometry.kind] === undefined ? 'none' : pump.geometry.kind;
  return {
    endFloat: plainText(form, 'endFloat.method', 'gasketAndDepths'),
    tips: plainText(form, 'tips.method', 'diameters'),
    gaps: plainText(form, 'gapDimensions.kind', gapKind),
  };
}

/** Every section that the form shows now. */
export function sectionsOf(form: FormState, pump: PumpRecord): readonly StripSection[] {
  const { endFloat, tips, gaps } = chosenMethods(form, pump);
  return [
    END_FLOAT_SECTIONS[endFloat],
    ...TIP_PARTS.map((part) => tipSection(part, tips)),
    ...BUSHES.map((_, index) => bushSection(index)),
    BACKLASH,
    GAP_SECTIONS[gaps],
  ].filter((section) => section !== undefined);
}

type ReadSection = {
  readonly key: string;
  readonly state: 'empty' | 'whole' | 'part';
  readonly values: Readonly<Record<string, number>>;
  readonly errors: Readonly<Record<string, string>>;
};

/** A section: not touched, whole, or with something that is missing or wrong. */
function readSection(form: FormState, { key, asked }: StripSection): ReadSection {
  const { values, errors } = readFields(form, asked);
  const measured = asked.filter(({ usual }) => usual === undefined);
  const typed = measured.filter((field) => quantityText(form, field).trim() !== '');
  if (typed.length === 0) return { key, state: 'empty', values: {}, errors: {} };
  const missing = measured.filter(({ name }) => values[name] === undefined && errors[name] === undefined);
  const lacking = Object.fromEntries(
    missing.map(({ name }) => [name, 'is missing: a clearance needs all of its parts']),
  );
  const all = { ...lacking, ...errors };
  return { key, state: Object.keys(all).length === 0 ? 'whole' : 'part', values, errors: all };
}

/** Fields of a section below its key, each reading with its instrument, limit and note. */
function subTree(
  { key, values }: ReadSection,
  reading: { readonly instrument: string; readonly before: (name: string) => unknown },
): Readonly<Record<string, Tree>> {
  const fields: Record<string, Tree> = {};
  for (const [name, value] of Object.entries(values)) {
    fields[name.slice(key.length + 1)] = value;
    if (!name.endsWith('.value') || key === 'gapDimensions') continue;
    const stem = name.slice(0, -'.value'.length);
    const below = stem === key ? '' : `${stem.slice(key.length + 1)}.`;
    fields[`${below}instrument`] = String(reading.before(`${stem}.instrument`) ?? reading.instrument);
    const limit = reading.before(`${stem}.limit`);
    if (isTree(limit)) fields[`${below}limit`] = limit;
  }
  return fields;
}

function isTree(value: unknown): value is Tree {
  return typeof value === 'object' && value !== null;
}

/** The sheet as typed, before its schema reads it; sections that are not whole are left out of it and named. */
export function stripTree(form: FormState, pump: PumpRecord, sheet: StripSheet | null, today: string) {
  const methods = chosenMethods(form, pump);
  const words = (name: string, usual = ''): string => plainText(form, name, usual).trim();
  const instrument = words('instrument', 'micrometer');
  const before = (name: string): unknown => leafAt(sheet, placeInSheet(sheet, name));
  const sections = sectionsOf(form, pump).map((section) => readSection(form, section));
  const whole = (key: string) => sections.find((section) => section.key === key && section.state === 'whole');
  const below = (key: string): Readonly<Record<string, Tree>> | null => {
    const section = whole(key);
    return section === undefined ? null : subTree(section, { instrument, before });
  };
  const limitOf = (name: string): Tree => {
    const limit = before(`${name}.limit`);
    return isTree(limit) ? limit : null;
  };
  const grown = (key: string, more: Readonly<Record<string, Tree>>): Tree => {
    const fields = below(key);
    return fields === null ? null : nested({ ...fields, ...more });
  };
  const parts = readFields(form, PARTS_TEMPERATURE);
  const endFloat = grown('endFloat', {
    method: methods.endFloat,
    ...(methods.endFloat === 'gasketAndDepths' ? { gasketMaterial: words('endFloat.gasketMaterial', 'paper') } : {}),
    limit: limitOf('endFloat'),
  });
  const tips = TIP_PARTS.map((part) =>
    grown(`tip.${part}`, { method: methods.tips, part, limit: limitOf(`tip.${part}`) }),
  );
  const bushes = BUSHES.map(({ part, where }, index) =>
    grown(`bush.${index}`, {
      part,
      where,
      isDrained: words(`bush.${index}.isDrained`, 'no') === 'yes',
      limit: limitOf(`bush.${index}`),
    }),
  );
  const wetting = readFields(form, WETTING_FIELDS);
  const tree: Tree = {
    format: 'slipwright.strip/1',
    id:
      sheet !== null && sheet.occasion === words('occasion', 'as rebuilt')
        ? sheet.id
        : sheetId(pump, words('occasion', 'as rebuilt')),
    version: 1,
    pumpId: pump.id,
    occasion: words('occasion', 'as rebuilt'),
    measuredOn: words('measuredOn', today),
    measuredBy: words('measuredBy'),
    partsTemperatureK: { value: parts.values['partsTemperatureK.value'] ?? null, standardUncertainty: 1 },
    endFloat,
    tipClearances: tips.filter((tip) => tip !== null),
    shaftsInBushes: bushes.filter((bush) => bush !== null),
    backlashM: grown('backlashM', {}),
    faceFlatness: sheet?.faceFlatness ?? [],
    reliefSeat: sheet?.reliefSeat ?? null,
    nicks: sheet?.nicks ?? [],
    turning: sheet?.turning ?? null,
    witnessMarks: sheet?.witnessMarks ?? [],
    fasteners: sheet?.fasteners ?? fastenersOf(words),
    cleaning: {
      how: words('cleaning.how', 'washed and dried'),
      isSolventWashed: words('cleaning.isSolventWashed', 'yes') === 'yes',
      isBlownDry: words('cleaning.isBlownDry', 'yes') === 'yes',
    },
    wetting: {
      how: words('wetting.how', 'oiled'),
      doseM3: wetting.values['wetting.doseM3'] ?? null,
      turnsByHand: wetting.values['wetting.turnsByHand'] ?? null,
    },
    gapDimensions: grown('gapDimensions', { kind: methods.gaps }),
    remarks: words('remarks'),
  };
  const errors = Object.assign({}, parts.errors, wetting.errors, ...sections.map((section) => section.errors));
  return { tree, errors };
}

function sheetId(pump: PumpRecord, occasion: string): string {
  return `${pump.id.slice(0, 50)}-${occasion === 'as found' ? 'found' : 'rebuilt'}`;
}

function fastenersOf(words: (name: string, usual?: string) => string): readonly Tree[] {
  const where = words('fasteners.where');
  if (where === '') return [];
  return [
    {
      where,
      count: Number(words('fasteners.count', '1')),
      locking: words('fasteners.locking', 'none'),
      isLocked: words('fasteners.locking', 'none') !== 'none',
    },
  ];
}
