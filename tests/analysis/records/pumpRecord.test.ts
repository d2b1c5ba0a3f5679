import { describe, expect, it } from 'vitest';
import { describeIssues } from '../../../analysis/records/fields.ts';
import { pumpRecord } from '../../../analysis/records/pumpRecord.ts';
import { samplePump } from '../../support/samples.ts';

const pump = samplePump('dredger-feed-pump');

/** What the record says is wrong; empty where it is taken. */
function complaint(record: unknown): string {
  const parsed = pumpRecord.safeParse(record);
  return parsed.success ? '' : describeIssues(parsed.error);
}

function withGeometry(change: Readonly<Record<string, unknown>>): unknown {
  return { ...pump, geometry: { ...pump.geometry, ...change } };
}

function measured(value: number) {
  return { value, standardUncertainty: 1e-5 };
}

describe('a pump record', () => {
  it('is taken back as it was written', () => {
    expect(pumpRecord.parse(JSON.parse(JSON.stringify(pump)))).toEqual(pump);
  });

  it('refuses a negative clearance, end float and backlash by name', () => {
    for (const key of ['tipClearanceM', 'endFloatM', 'backlashM']) {
      expect(complaint(withGeometry({ [key]: measured(-1e-5) }))).toContain(`geometry.${key}.value`);
      expect(complaint(withGeometry({ [key]: measured(0) }))).toBe('');
    }
  });

  it('refuses lengths that are not above zero', () => {
    for (const key of ['tipDiameterM', 'runningCentreDistanceM', 'faceWidthM']) {
      expect(complaint(withGeometry({ [key]: measured(0) }))).toContain(`geometry.${key}.value`);
    }
    expect(complaint(withGeometry({ moduleM: -0.003 }))).toContain('geometry.moduleM');
  });

  it('refuses a negative standard uncertainty', () => {
    expect(complaint(withGeometry({ faceWidthM: { value: 0.02, standardUncertainty: -1e-6 } }))).toContain(
      'geometry.faceWidthM.standardUncertainty',
    );
  });

  it('refuses a tip circle that is not larger than the pitch circle, and says both sizes', () => {
    const said = complaint(withGeometry({ tipDiameterM: measured(0.035) }));
    expect(said).toContain('geometry.tipDiameterM.value');
    expect(said).toContain('0.035');
    expect(said).toContain('0.036');
    expect(complaint(withGeometry({ tipDiameterM: measured(0.036) }))).toContain('geometry.tipDiameterM.value');
  });

  it('refuses unequal gears, which are not computed, and names the way out', () => {
    const said = complaint(withGeometry({ toothCount: { driver: 12, driven: 14 } }));
    expect(said).toContain('geometry.toothCount.driven');
    expect(said).toContain('as stated');
  });

  it('refuses numbers that are none, unknown fields and unknown kinds', () => {
    expect(complaint(withGeometry({ moduleM: Number.NaN }))).toContain('geometry.moduleM');
    expect(complaint({ ...pump, colour: 'green' })).toContain('colour');
    expect(complaint({ ...pump, geometry: { kind: 'guessed' } })).toContain('geometry');
    expect(complaint({ ...pump, format: 'other' })).toContain('format');
    expect(complaint(undefined)).toContain('(whole record)');
  });

  it('keeps its id fit for a folder name', () => {
    for (const id of ['', '../etc', 'Pump 1', '-pump', 'a'.repeat(65)]) {
      expect(complaint({ ...pump, id }), id).toContain('id');
    }
    expect(complaint({ ...pump, id: 'feed-pump-2' })).toBe('');
  });

  it('may be without a duty, and refuses a demand without an origin', () => {
    expect(complaint({ ...pump, duty: null })).toBe('');
    const [first] = pump.duty?.demands ?? [];
    const nameless = { ...first, origin: 'hearsay' };
    expect(complaint({ ...pump, duty: { machine: 'invented', demands: [nameless] } })).toContain(
      'duty.demands.0.origin',
    );
  });
});
