import { describe, expect, it } from 'vitest';
import { pumpRecord } from '../../../analysis/records/pumpRecord.ts';
import { stripSheet } from '../../../analysis/records/stripSheet.ts';
import { judgeStripSheet } from '../../../analysis/strip/judgeStripSheet.ts';
import { type AskedQuantity, readTyped, typedText, withUnit } from '../../../web/page/forms/askedQuantity.ts';
import type { FormState } from '../../../web/page/forms/formState.ts';
import { nested } from '../../../web/page/forms/nested.ts';
import { parseTree } from '../../../web/page/forms/parseRecord.ts';
import { idFrom, pumpBefore, pumpTree } from '../../../web/page/pumps/record/pumpTree.ts';
import { stripBefore, stripTree } from '../../../web/page/pumps/strip/stripTree.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { samplePump, sampleStrip } from '../../support/samples.ts';
import { typedForm } from '../../support/typedForm.ts';

const LENGTH: AskedQuantity = { name: 'tip', label: 'tip diameter', quantity: 'length', above: 0 };
const PRESSURE: AskedQuantity = { name: 'dp', label: 'difference', quantity: 'pressure', isDifference: true };

const formOf = (texts: Readonly<Record<string, string>>, before: FormState['before']): FormState =>
  typedForm(texts, before, false);

describe('a quantity, as it is typed', () => {
  it('takes a bare number in the usual unit, and a unit where one is typed', () => {
    expectRelative(Number(accepted(readTyped(LENGTH, '42', 'metric'))), 0.042, 1e-12);
    // 1 in is 25.4 mm exactly (NIST SP 811, appendix B)
    expectRelative(Number(accepted(readTyped(LENGTH, '42', 'US'))), 42 * 0.0254, 1e-12);
    expectRelative(Number(accepted(readTyped(LENGTH, '3 in', 'metric'))), 0.0762, 1e-12);
    expectRelative(Number(accepted(readTyped(LENGTH, '2.5mm', 'US'))), 0.0025, 1e-12);
  });

  it('gets its unit written behind it, so that it means the same once units are changed', () => {
    expect(withUnit(LENGTH, ' 42 ', 'metric')).toBe('42 mm');
    expect(withUnit(LENGTH, '42 mm', 'US')).toBe('42 mm');
    expect(withUnit(PRESSURE, '3', 'metric')).toBe('3 bar');
    expect(typedText(PRESSURE, 3e5, 'metric')).toBe('3 bar');
  });

  it('says in words what is wrong, the limit in the unit that is typed', () => {
    expect(readTyped(LENGTH, '-1', 'metric')).toEqual({ ok: false, reason: 'must be above 0 mm' });
    expect(readTyped(LENGTH, '', 'metric')).toEqual({ ok: false, reason: 'is needed, such as 1 mm' });
    const comma = readTyped(LENGTH, '2,5', 'metric');
    expect(comma.ok ? '' : comma.reason).toContain('comma');
  });
});

describe('a record, out of a form', () => {
  it('is grown from the paths of its fields, numbers as lists', () => {
    expect(nested({ 'a.b': 1, 'a.c': 2, 'l.0.x': 3, 'l.1.x': 4 })).toEqual({
      a: { b: 1, c: 2 },
      l: [{ x: 3 }, { x: 4 }],
    });
  });

  it.each(['dredger-feed-pump', 'dredger-return-pump'] as const)('leaves %s as it was when nothing is typed', (id) => {
    const pump = samplePump(id);
    const { tree, errors } = pumpTree(formOf({}, pumpBefore(pump)), pump.geometry.kind, pump);
    expect(errors).toEqual({});
    const read = accepted(parseTree(pumpRecord, tree));
    // Lengths went through millimetres and back, so the last bits may differ.
    const rounded = (record: unknown): unknown =>
      JSON.parse(
        JSON.stringify(record, (_, value) => (typeof value === 'number' ? Number(value.toPrecision(9)) : value)),
      );
    const byId = (demands: readonly { readonly id: string }[] = []) =>
      Object.fromEntries(demands.map((demand) => [demand.id, demand]));
    const { duty, ...rest } = pump;
    expect(rounded(read)).toMatchObject(Object(rounded(rest)));
    expect(rounded(byId(read.duty?.demands))).toEqual(rounded(byId(duty?.demands)));
  });

  it('leaves a strip sheet as it was but for its day when nothing is typed', () => {
    const [pump, sheet] = [samplePump('dredger-feed-pump'), sampleStrip('dredger-feed-pump')];
    const { tree, errors } = stripTree(formOf({}, stripBefore(pump, sheet)), pump, sheet, '2026-11-26');
    expect(errors).toEqual({});
    const read = accepted(parseTree(stripSheet, tree));
    // What the form does not ask stays: limits, instruments. Notes of readings and turns by hand belong to the old sheet.
    expectRelative(Number(read.wetting.doseM3), 1e-5, 1e-9);
    expect(read.wetting.turnsByHand).toBe(10);
    expect(read).toMatchObject({
      id: sheet.id,
      measuredOn: '2026-11-26',
      fasteners: sheet.fasteners,
      nicks: sheet.nicks,
    });
    const floatsOf = (of: typeof sheet) =>
      judgeStripSheet(of).measurements.map(({ label, outcome }) => [label, outcome]);
    for (const [index, [label, outcome]] of floatsOf(read).entries()) {
      const [labelBefore, before] = floatsOf(sheet)[index] ?? [];
      expect(label).toBe(labelBefore);
      if (typeof outcome !== 'object' || !outcome.ok || typeof before !== 'object' || !before.ok)
        throw new Error(String(label));
      expectRelative(outcome.value.stated.value, before.value.stated.value, 1e-6);
      expect(outcome.value.limit).toEqual(before.value.limit);
    }
    expect(floatsOf(read)).toHaveLength(floatsOf(sheet).length);
  });

  it('asks for all parts of a clearance, or for none', () => {
    const pump = samplePump('dredger-feed-pump');
    const typed = formOf({ 'endFloat.recessDepthM.value': '20.09' }, stripBefore(pump, null));
    const { errors } = stripTree(typed, pump, null, '2026-11-26');
    expect(errors['endFloat.gearWidthM.value']).toContain('is missing');
    expect(errors['tip.driver.boreDiameterM.value']).toBeUndefined();
  });

  it('names at its field what a demand still needs', () => {
    const pump = samplePump('dredger-feed-pump');
    const { errors } = pumpTree(formOf({ 'duty.speed': '' }, pumpBefore(pump)), 'externalGear', pump);
    expect(errors['duty.speed']).toContain('is needed');
  });

  it('gets an id that a folder can bear', () => {
    expect(idFrom('KB-204 Förderpumpe (rechts)')).toBe('kb-204-forderpumpe-rechts');
    expect(idFrom('…')).toBe('pump');
  });
});
