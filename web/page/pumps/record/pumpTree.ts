import type { PumpRecord } from '../../../../analysis/records/pumpRecord.ts';
import { type FormState, plainText } from '../../forms/formState.ts';
import { leafAt, nested, type Tree } from '../../forms/nested.ts';
import { type ReadFields, readFields } from '../../forms/readFields.ts';
import { dutyBefore, dutyGaps, dutyOf } from './dutyOf.ts';
import { geometryFormOf } from './geometryFields.ts';
import { DUTY_FIELDS_ASKED, RELIEF_FIELD, RUNNING_FIELDS } from './pumpFields.ts';

/** What stands in a field before anybody types: the record's own, where there is one. */
export function pumpBefore(pump: PumpRecord | null): FormState['before'] {
  const duty = dutyBefore(pump);
  return (name) => {
    if (name.startsWith('duty.')) return duty[name] ?? null;
    const leaf = leafAt(pump, name);
    if (typeof leaf === 'boolean') return leaf ? 'yes' : 'no';
    return typeof leaf === 'number' || typeof leaf === 'string' ? leaf : null;
  };
}

/** An id that folders can bear, from a pump's number and name: 'KB-204, Feed pump' is 'kb-204-feed-pump'. */
export function idFrom(words: string): string {
  const plain = words
    .normalize('NFD')
    .replaceAll(/\p{Mark}/gu, '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '');
  return plain.slice(0, 60).replace(/-+$/, '') || 'pump';
}

function ticked(form: FormState, name: string, usual: boolean): boolean {
  return plainText(form, name, usual ? 'yes' : 'no') === 'yes';
}

/** The geometry under its key. */
function geometryIn(tree: Tree): Tree {
  return typeof tree === 'object' && tree !== null && 'geometry' in tree ? tree.geometry : null;
}

/** Geometry as typed so far, before its schema reads it. */
export function geometryTree(form: FormState, kind: string): { readonly tree: Tree; readonly read: ReadFields } {
  const { asked, ticks, texts } = geometryFormOf(kind);
  const read = readFields(form, asked);
  const tree = nested({
    'geometry.kind': kind,
    ...read.values,
    ...Object.fromEntries(ticks.map(({ name, usual }) => [name, ticked(form, name, usual)])),
    ...Object.fromEntries(texts.map(({ name }) => [name, plainText(form, name)])),
  });
  return { tree: geometryIn(tree), read };
}

/** The record as typed, before its schema reads it, and what is wrong with its quantities. */
export function pumpTree(
  form: FormState,
  kind: string,
  pump: PumpRecord | null,
): { readonly tree: Tree; readonly errors: ReadFields['errors'] } {
  const geometry = geometryTree(form, kind);
  const duty = readFields(form, DUTY_FIELDS_ASKED);
  const rest = readFields(form, [...RUNNING_FIELDS, RELIEF_FIELD]);
  const words = (name: string, usual = ''): string => plainText(form, name, usual).trim();
  const material = (name: string): string | null => words(`materials.${name}`) || null;
  const fields: Record<string, Tree> = {
    format: 'slipwright.pump/1',
    id: pump?.id ?? idFrom(`${words('serialNumber')} ${words('name')}`),
    version: 1,
    name: words('name'),
    type: words('type', geometryFormOf(kind).type),
    serialNumber: words('serialNumber'),
    maker: words('maker', 'not known'),
    owner: words('owner'),
    rotation: words('rotation', 'clockwise'),
    mayRunDry: ticked(form, 'mayRunDry', false),
    geometry: geometry.tree,
    shaftEnds: pump?.shaftEnds ?? [],
    markings: pump?.markings ?? [],
    photographs: pump?.photographs ?? [],
    reliefValveSettingPa: rest.values[RELIEF_FIELD.name] ?? null,
    materials: { body: material('body'), gears: material('gears'), bushes: material('bushes') },
    duty: dutyOf(
      duty.values,
      {
        machine: words('duty.machine'),
        flowOrigin: words('duty.origin', 'house limit'),
        efficiencyOrigin: words('duty.efficiencyOrigin', 'house limit'),
        primingOrigin: words('duty.primingOrigin', 'house limit'),
        wetness: words('duty.wetness', 'W1'),
      },
      pump,
    ),
    remarks: words('remarks'),
    ...Object.fromEntries(RUNNING_FIELDS.map(({ name }) => [name, rest.values[name] ?? null])),
  };
  return {
    tree: nested(fields),
    errors: { ...geometry.read.errors, ...rest.errors, ...duty.errors, ...dutyGaps(duty.values) },
  };
}
