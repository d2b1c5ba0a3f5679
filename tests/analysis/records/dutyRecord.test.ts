import { describe, expect, it } from 'vitest';
import { demand } from '../../../analysis/records/dutyRecord.ts';
import { describeIssues } from '../../../analysis/records/fields.ts';

const flow = {
  id: 'flow',
  origin: 'maker',
  quantity: 'deliveredFlow',
  at: { speedRevPerS: 15, differentialPressurePa: 3e5, oilTemperatureK: 318.15 },
  atLeastM3PerS: 1.75e-4,
};

function complaint(record: unknown): string {
  const parsed = demand.safeParse(record);
  return parsed.success ? '' : describeIssues(parsed.error);
}

describe('a demand', () => {
  it('says what, how much, where and by whom', () => {
    expect(complaint(flow)).toBe('');
    for (const key of Object.keys(flow)) {
      const lacking = Object.fromEntries(Object.entries(flow).filter(([name]) => name !== key));
      expect(complaint(lacking), key).toContain(key);
    }
  });

  it('refuses an efficiency in per cent', () => {
    const efficiency = { id: 'e', origin: 'house limit', quantity: 'volumetricEfficiency', at: flow.at };
    expect(complaint({ ...efficiency, atLeast: 85 })).toContain('atLeast');
    expect(complaint({ ...efficiency, atLeast: 0.85 })).toBe('');
  });

  it('refuses a priming demand without a wetness class that is known', () => {
    const priming = {
      id: 'p',
      origin: 'house limit',
      quantity: 'primingTime',
      staticLiftM: 0.45,
      atMostSpeedRevPerS: 10,
      atMostS: 8,
    };
    expect(complaint({ ...priming, wetness: 'damp' })).toContain('wetness');
    expect(complaint({ ...priming, wetness: 'W1' })).toBe('');
  });
});
