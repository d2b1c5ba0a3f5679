import { describe, expect, it } from 'vitest';
import { demandsAcrossRuns } from '../../../analysis/certificate/demandsAcrossRuns.ts';
import { type Demand, demand } from '../../../analysis/records/dutyRecord.ts';
import { PRIMING_DEMAND } from '../../support/certificateRecords.ts';
import { type InventedStart, seriesRuns } from '../../support/drySeriesRuns.ts';

/** Five drained starts within eight seconds. */
const FIVE: Demand = demand.parse({ ...PRIMING_DEMAND, id: 'five', wetness: 'W2', starts: 5 });

function judged(starts: readonly InventedStart[], of: Demand = FIVE) {
  const [verdict] = demandsAcrossRuns(seriesRuns(starts, { demands: [of] }));
  if (verdict === undefined) throw new Error('no verdict');
  return verdict;
}

const times = (...timesS: readonly number[]): readonly InventedStart[] => timesS.map((timeS) => ({ timeS }));

describe('a demand for repeated dry starts', () => {
  it('is not proven by a single start that kept it, and the run says so', () => {
    const [run] = seriesRuns(times(4), { demands: [FIVE] });
    expect(run?.result.verdicts[0]).toMatchObject({ verdict: 'not proven', speaks: true });
    expect(run?.result.verdicts[0]?.reason).toContain('5 starts prepared alike are asked for');
  });

  it('passes on five that kept it, and the slowest speaks for them', () => {
    const verdict = judged(times(4, 4.1, 4.4, 4, 3.9));
    expect(verdict).toMatchObject({ verdict: 'pass', runId: '20260611-drylift-3', value: { value: 4.4 } });
    expect(verdict.reason).toContain('a success rate of 55 % or more');
  });

  it('is not proven by four, however good', () => {
    const verdict = judged(times(4, 4.1, 4.4, 4));
    expect(verdict.verdict).toBe('not proven');
    expect(verdict.reason).toContain('4 of 5 starts that are asked for');
  });

  it('fails where one of six brought no oil in time, or came too late', () => {
    expect(judged([...times(4, 4.1, 4.4, 4, 4), { timeS: null }])).toMatchObject({
      verdict: 'fail',
      runId: '20260611-drylift-6',
    });
    expect(judged(times(4, 9.5, 4.4, 4, 4, 4))).toMatchObject({ verdict: 'fail', runId: '20260611-drylift-2' });
  });

  it('is not proven where one lies nearer to the limit than its uncertainty', () => {
    // 8 s allowed, 7.95 ± 0.12 s.
    expect(judged(times(4, 7.95, 4.4, 4, 4)).verdict).toBe('not proven');
  });

  it('is not met by starts of two classes added up', () => {
    const mixed = [
      ...times(4, 4, 4),
      ...times(4, 4).map((start) => ({ ...start, wetness: 'W1', mounting: 2 }) as const),
    ];
    expect(judged(mixed).verdict).toBe('not proven');
  });
});

describe('a demand for one dry start', () => {
  it('is failed by a start that brought no oil, whatever the later ones do', () => {
    const one: Demand = demand.parse({ ...PRIMING_DEMAND, wetness: 'W2' });
    expect(judged([{ timeS: null }, ...times(4, 4)], one)).toMatchObject({ verdict: 'fail' });
    expect(judged(times(4, 4.2), one)).toMatchObject({ verdict: 'pass', value: { value: 4.2 } });
  });
});
