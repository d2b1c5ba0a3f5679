import { describe, expect, it } from 'vitest';
import { describeIssues } from '../../../analysis/records/fields.ts';
import { stripSheet } from '../../../analysis/records/stripSheet.ts';
import { reading } from '../../support/gapSheets.ts';
import { samplePump, sampleStrip } from '../../support/samples.ts';

const sheet = sampleStrip('dredger-feed-pump');

/** What the record says is wrong; empty where it is taken. */
function complaint(change: Readonly<Record<string, unknown>>): string {
  const parsed = stripSheet.safeParse({ ...sheet, ...change });
  return parsed.success ? '' : describeIssues(parsed.error);
}

function withShape(change: Readonly<Record<string, unknown>>): string {
  return complaint({ gapDimensions: { ...sheet.gapDimensions, ...change } });
}

describe('a strip sheet', () => {
  it('is taken back as it was written, for pumps that exist', () => {
    for (const id of ['dredger-feed-pump', 'dredger-return-pump'] as const) {
      const sample = sampleStrip(id);
      expect(stripSheet.parse(JSON.parse(JSON.stringify(sample)))).toEqual(sample);
      expect(sample.pumpId).toBe(samplePump(id).id);
      expect(sample.remarks).toContain('Invented');
    }
  });

  it('asks every reading for its instrument and its uncertainty', () => {
    expect(complaint({ backlashM: { value: 1e-4, standardUncertainty: 1e-5 } })).toContain('backlashM.instrument');
    expect(complaint({ backlashM: { ...reading(1e-4), standardUncertainty: -1 } })).toContain('standardUncertainty');
    expect(complaint({ backlashM: reading(-1e-4) })).toContain('backlashM.value');
    expect(complaint({ backlashM: reading(0) })).toBe('');
    expect(complaint({ backlashM: null })).toBe('');
  });

  it('asks a limit for a bound and where it comes from', () => {
    const limited = (limit: unknown): string => complaint({ backlashM: { ...reading(1e-4), limit } });
    expect(limited({ origin: 'maker' })).toContain('neither atLeast nor atMost');
    expect(limited({ atLeast: 2, atMost: 1, origin: 'maker' })).toContain('atLeast lies above atMost');
    expect(limited({ atMost: 1 })).toContain('backlashM.limit.origin');
    expect(limited({ atMost: 1, origin: 'drawing' })).toBe('');
  });

  it('has one tip clearance a gear and one bush a face', () => {
    const [tip] = sheet.tipClearances;
    expect(complaint({ tipClearances: [tip, tip] })).toContain('driver stands twice');
    const [bush] = sheet.shaftsInBushes;
    expect(complaint({ shaftsInBushes: [bush, bush, bush] })).toContain('a third bush of the driver');
  });

  it('takes a tight spot by its angle within a turn', () => {
    const turning = (shaftAngleRad: number) => ({
      freeTorqueNm: reading(0.3),
      tightSpots: [{ shaftAngleRad, torqueNm: reading(0.5) }],
    });
    expect(complaint({ turning: turning(6.28) })).toBe('');
    expect(complaint({ turning: turning(6.29) })).toContain('turning.tightSpots.0.shaftAngleRad');
  });

  it('knows no dose of oil in a bone dry pump', () => {
    const wetting = { how: 'bone dry', turnsByHand: null };
    expect(complaint({ wetting: { ...wetting, doseM3: 1e-5 } })).toContain('wetting.doseM3');
    expect(complaint({ wetting: { ...wetting, doseM3: null } })).toBe('');
  });

  it('refuses shapes that cannot be: roots outside tips, a ring that pumps nothing, a rotor wider than its ring', () => {
    expect(withShape({ rootDiameterM: { driver: 0.043, driven: 0.0285 } })).toContain(
      'gapDimensions.rootDiameterM.driver',
    );
    const vane = {
      kind: 'vane',
      vaneCount: 10,
      rotorDiameterM: 0.06,
      ringRadiusM: { largest: 0.035, smallest: 0.031 },
      strokesPerTurn: 1,
      faceWidthM: 0.03,
      tipLandM: { value: 0.001, standardUncertainty: 0 },
      sealingArcRad: { value: 1, standardUncertainty: 0 },
      rotorClearanceM: { value: 1e-3, standardUncertainty: 0 },
    };
    expect(complaint({ gapDimensions: vane })).toBe('');
    expect(complaint({ gapDimensions: { ...vane, ringRadiusM: { largest: 0.031, smallest: 0.031 } } })).toContain(
      'pumps nothing',
    );
    expect(complaint({ gapDimensions: { ...vane, rotorDiameterM: 0.063 } })).toContain('gapDimensions.rotorDiameterM');
    expect(withShape({ kind: 'peristaltic' })).toContain('gapDimensions');
  });
});
