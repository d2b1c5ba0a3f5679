import { describe, expect, it } from 'vitest';
import { certificateData } from '../../../analysis/certificate/certificateData.ts';
import { dryLiftParts, drySeriesParts } from '../../../analysis/certificate/dryLiftPart.ts';
import { dryLiftRun } from '../../support/certificateRuns.ts';
import { seriesRuns } from '../../support/drySeriesRuns.ts';
import { INVENTED_DIAGNOSIS } from '../../support/inventedDiagnosis.ts';

const lift = dryLiftRun();

describe("a certificate's dry start", () => {
  it('tells the estimate beside what was proven, and one that was refused not at all', () => {
    const [part] = dryLiftParts([lift]);
    expect(part?.kind).toBe('lift');
    expect(part?.estimate?.inWords[0]).toMatch(/^Estimated: dry lift limit 5\.9 m/);
    expect(part?.estimate?.course.columnHeightM?.at(-1)).toBeCloseTo(0.45, 3);
    const { dryLift } = lift.result;
    if (dryLift === null) throw new Error('fixture');
    const estimate = { ok: false, reason: { code: 'NO_SUCTION', text: 'The suction hardly fell.' } } as const;
    const [without] = dryLiftParts([{ ...lift, result: { ...lift.result, dryLift: { ...dryLift, estimate } } }]);
    expect(without?.estimate).toBeNull();
    expect(without?.inWords).toContain('Dry lift proven');
  });

  it('tells the events that were seen, each with its uncertainty', () => {
    const { dryLift } = lift.result;
    if (dryLift?.events === undefined || dryLift.events === null) throw new Error('fixture');
    const reason = { code: 'NOT_TOLD', text: 'The suction does not bend.' };
    const events = { ...dryLift.events, oilAtInlet: { seen: false, reason } } as const;
    const [part] = dryLiftParts([{ ...lift, result: { ...lift.result, dryLift: { ...dryLift, events } } }]);
    expect(part?.events.map(({ event }) => event)).toEqual([
      'motorStart',
      'firstSuction',
      'oilAtOutlet',
      'sustainedDelivery',
    ]);
    expect(part?.oilAtInletS).toBeNull();
    expect(part?.events[1]).toMatchObject({ atS: { value: 4.17, expandedUncertainty: 0.06 }, from: 'suctionPressure' });
  });

  it('tells why a pump did not prime', () => {
    const { dryLift } = lift.result;
    if (dryLift === null) throw new Error('fixture');
    const result = { ...lift.result, dryLift: { ...dryLift, diagnosis: INVENTED_DIAGNOSIS } };
    const [part] = dryLiftParts([{ ...lift, result }]);
    expect(part?.diagnosisInWords[1]).toBe('Most likely: The suction pipe leaks. Sign: It lost its suction.');
    expect(dryLiftParts([lift])[0]?.diagnosisInWords).toEqual([]);
  });

  it('says of a blanked run that it proves no lift', () => {
    const { dryLift } = lift.result;
    if (dryLift === null) throw new Error('fixture');
    const priming = { ok: false, reason: { code: 'SUCTION_BLANKED', text: 'Blanked.' } } as const;
    const run = { ...lift.run, kind: 'blanked' } as const;
    const [part] = dryLiftParts([{ ...lift, run, result: { ...lift.result, dryLift: { ...dryLift, priming } } }]);
    expect(part).toMatchObject({ kind: 'blanked', hasPrimed: false, motorStartS: 4.02 });
    expect(part?.inWords).toContain('no lift is proven');
  });

  it('is told with its likes as one series, and a start that does not count with the reason', () => {
    const starts = [4, 4.1, 3.9].map((timeS) => ({ timeS }));
    const parts = drySeriesParts(seriesRuns([...starts, { timeS: 4, wetness: 'W1' }]));
    expect(certificateData.shape.dryLiftSeries.parse(parts)).toHaveLength(1);
    expect(parts[0]?.inWords[0]).toContain('Oil came in 3 of 3 starts');
    const [washed] = drySeriesParts(seriesRuns([5, 4].map((timeS) => ({ timeS, wetness: 'W1' as const }))));
    expect(washed?.starts.map(({ whyNotCounted }) => whyNotCounted === null)).toEqual([true, false]);
  });

  it('reads one that was written before estimates were told', () => {
    const [part] = dryLiftParts([lift]);
    if (part === undefined) throw new Error('fixture');
    const { kind: _kind, estimate: _estimate, events: _events, diagnosisInWords: _words, ...before } = part;
    const read = certificateData.shape.dryLift.parse([before]);
    expect(read[0]).toMatchObject({ kind: 'lift', estimate: null, events: [], diagnosisInWords: [] });
  });
});
