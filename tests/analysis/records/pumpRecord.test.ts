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

  it('asks for the second tip diameter of unequal gears, and measures each against its own pitch circle', () => {
    const unequal = { toothCount: { driver: 10, driven: 14 }, tipDiameterM: measured(0.036) };
    const said = complaint(withGeometry(unequal));
    expect(said).toContain('geometry.drivenTipDiameterM');
    expect(said).toContain('14 teeth against 10');
    expect(complaint(withGeometry({ ...unequal, drivenTipDiameterM: measured(0.048) }))).toBe('');
    // By hand: on 36 mm the driven gear's pitch circle is 2 · 36 · 14/24 = 42 mm.
    const tooSmall = complaint(withGeometry({ ...unequal, drivenTipDiameterM: measured(0.0415) }));
    expect(tooSmall).toContain('geometry.drivenTipDiameterM.value: tip circle of 0.0415 m');
    expect(tooSmall).toContain('0.042 m');
  });

  it('takes an internal gear, a trochoid set and lobe rotors, each with its lengths above zero', () => {
    const internalGear = {
      kind: 'internalGear',
      toothCount: { pinion: 13, ring: 19 },
      moduleM: 0.003,
      pressureAngleRad: 0.35,
      pinionTipDiameterM: measured(0.045),
      ringTipDiameterM: measured(0.054),
      runningCentreDistanceM: measured(0.009),
      faceWidthM: measured(0.02),
      hasReliefGrooves: false,
      backlashM: measured(0),
    };
    const trochoid = {
      kind: 'trochoid',
      innerToothCount: 6,
      lobeTopCircleDiameterM: measured(0.038),
      lobeRadiusM: measured(0.008),
      eccentricityM: measured(0.0025),
      widthM: measured(0.02),
    };
    const lobe = {
      kind: 'lobe',
      lobeCount: 2,
      tipDiameterM: measured(0.09),
      centreDistanceM: measured(0.06),
      widthM: measured(0.05),
    };
    for (const [type, geometry] of [
      ['internal gear', internalGear],
      ['trochoid rotor set', trochoid],
      ['lobe', lobe],
    ] as const) {
      expect(complaint({ ...pump, type, geometry }), type).toBe('');
      for (const key of Object.keys(geometry).filter((name) =>
        /(Diameter|Radius|Distance|eccentricity|idth)M$/i.test(name),
      )) {
        expect(complaint({ ...pump, type, geometry: { ...geometry, [key]: measured(0) } }), key).toContain(
          `geometry.${key}.value`,
        );
      }
    }
    expect(complaint({ ...pump, geometry: { ...internalGear, toothCount: { pinion: 13, ring: 13 } } })).toContain(
      'geometry.toothCount.ring',
    );
    expect(complaint({ ...pump, geometry: { ...internalGear, ringTipDiameterM: measured(0.045) } })).toContain(
      'geometry.ringTipDiameterM.value',
    );
    expect(complaint({ ...pump, geometry: { ...lobe, lobeCount: 1 } })).toContain('geometry.lobeCount');
    expect(complaint({ ...pump, geometry: { ...trochoid, innerToothCount: 2 } })).toContain('geometry.innerToothCount');
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
