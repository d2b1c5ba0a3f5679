import { describe, expect, it } from 'vitest';
import { describeIssues } from '../../../analysis/records/fields.ts';
import { pumpRecord } from '../../../analysis/records/pumpRecord.ts';
import { samplePump } from '../../support/samples.ts';

const pump = samplePump('dredger-feed-pump');

function complaint(change: Readonly<Record<string, unknown>>): string {
  const parsed = pumpRecord.safeParse({ ...pump, ...change });
  return parsed.success ? '' : describeIssues(parsed.error);
}

describe('the particulars of a pump record', () => {
  it('claim nothing for a record written before they were asked for', () => {
    const { shaftEnds, reliefValveSettingPa, materials, markings, photographs, ...old } = pump;
    expect(shaftEnds.length + markings.length + photographs.length).toBeGreaterThan(0);
    expect([reliefValveSettingPa, materials.body]).toEqual([null, 'cast iron']);
    expect(pumpRecord.parse(old)).toMatchObject({
      shaftEnds: [],
      reliefValveSettingPa: null,
      materials: { body: null, gears: null, bushes: null },
      markings: [],
      photographs: [],
    });
  });

  it('refuse seals, materials and settings that are none', () => {
    expect(complaint({ shaftEnds: [{ where: 'coupling end', sealedBy: 'chewing gum' }] })).toContain(
      'shaftEnds.0.sealedBy',
    );
    expect(complaint({ materials: { body: 'wood' } })).toContain('materials.body');
    expect(complaint({ reliefValveSettingPa: 0 })).toContain('reliefValveSettingPa');
  });

  it('name a photograph by the hash of its bytes, with a caption', () => {
    expect(complaint({ photographs: [{ sha256: 'ab'.repeat(32), caption: 'plate side' }] })).toBe('');
    expect(complaint({ photographs: [{ sha256: 'plate.jpg', caption: 'plate side' }] })).toContain(
      'photographs.0.sha256',
    );
    expect(complaint({ photographs: [{ sha256: 'ab'.repeat(32), caption: '' }] })).toContain('photographs.0.caption');
  });
});
