import { describe, expect, it } from 'vitest';
import { drySeries } from '../../../../analysis/dryLift/series/drySeries.ts';
import { seriesWords } from '../../../../analysis/dryLift/series/seriesWords.ts';
import { drySeriesSchema } from '../../../../analysis/resultSchema/drySeriesSchema.ts';
import { feedPump } from '../../../support/certificateRecords.ts';
import { deliveryRun } from '../../../support/certificateRuns.ts';
import { type InventedStart, seriesRuns } from '../../../support/drySeriesRuns.ts';

const FIVE_TIMES_S = [4.02, 3.95, 4.1, 3.98, 4.05];
const five: readonly InventedStart[] = FIVE_TIMES_S.map((timeS) => ({ timeS }));

function only(...args: Parameters<typeof seriesRuns>) {
  const [series, ...others] = drySeries(seriesRuns(...args));
  if (series === undefined || others.length > 0) throw new Error(`${others.length + 1} series`);
  return series;
}

describe('dry starts prepared alike', () => {
  it('are one piece of evidence: five of five prove 55 %, and times lie within their tolerance interval', () => {
    const series = only(five);
    expect(drySeriesSchema.safeParse(series).success).toBe(true);
    expect(series).toMatchObject({ countedStarts: 5, primedStarts: 5, wetness: 'W2', warnings: [] });
    // 0.05^(1/5) = 0.549280; k = 5.0769 for five (published to 5.08); U of a time 0.12 s.
    expect(series.successRateAtLeast).toBeCloseTo(0.54928, 5);
    const logs = FIVE_TIMES_S.map(Math.log);
    const middle = logs.reduce((a, b) => a + b) / 5;
    const deviation = Math.sqrt(logs.reduce((sum, log) => sum + (log - middle) ** 2, 0) / 4);
    const commonS = 1.96 * 0.06;
    expect(Math.abs((series.tolerance?.lowerS ?? 0) - (Math.exp(middle - 5.08 * deviation) - commonS))).toBeLessThan(
      5e-3,
    );
    expect(Math.abs((series.tolerance?.upperS ?? 0) - (Math.exp(middle + 5.08 * deviation) + commonS))).toBeLessThan(
      5e-3,
    );
    expect(series.trend.verdict).toBe('no sign');
    expect(seriesWords(series).join(' ')).toContain('Oil came in 5 of 5 starts from 0.450 m at 599 r/min, in class W2');
    expect(seriesWords(series).join(' ')).toContain('at least 55 %');
  });

  it('are pooled within a class, a speed and a lift alone, whatever the order they are given in', () => {
    const runs = seriesRuns([...five, { timeS: 5, speedRevPerS: 8 }, { timeS: 6, wetness: 'W3' }]);
    const series = drySeries([...runs].reverse());
    expect(series.map(({ countedStarts, wetness }) => [countedStarts, wetness])).toEqual([
      [5, 'W2'],
      [1, 'W2'],
      [1, 'W3'],
    ]);
  });

  it('with one that failed prove the exact bound of four of five', () => {
    const series = only([...five.slice(1), { timeS: null }]);
    // P(X ≥ 4 of 5) = 5 p⁴ − 4 p⁵ = 0.05 at p = 0.342592: 5 · 0.013776 − 4 · 0.0047195 = 0.0500.
    expect(series.successRateAtLeast).toBeCloseTo(0.342592, 5);
    expect(series).toMatchObject({ countedStarts: 5, primedStarts: 4 });
  });

  it('in W1 are one of one until the pump is mounted anew, since the first success floods it', () => {
    const [once] = drySeries(
      seriesRuns([
        { timeS: 4, wetness: 'W1' },
        { timeS: 3, wetness: 'W1' },
      ]),
    );
    expect(once).toMatchObject({ countedStarts: 1, primedStarts: 1 });
    expect(once?.starts[1]?.whyNotCounted).toContain('20260611-drylift-1 filled the pump');
    const [twice] = drySeries(
      seriesRuns([
        { timeS: 4, wetness: 'W1', mounting: 1 },
        { timeS: 4.1, wetness: 'W1', mounting: 2 },
      ]),
    );
    expect(twice).toMatchObject({ countedStarts: 2, primedStarts: 2 });
  });

  it('in W1 count no more after a delivery run of the same mounting, but after a start that brought no oil', () => {
    const flooded = deliveryRun({ startedAtUtc: '2026-06-11T05:00:00Z', pump: feedPump([]) });
    expect(drySeries([flooded, ...seriesRuns([{ timeS: 4, wetness: 'W1' }])])).toEqual([]);
    const [series] = drySeries(
      seriesRuns([
        { timeS: null, wetness: 'W1' },
        { timeS: 4, wetness: 'W1' },
      ]),
    );
    expect(series).toMatchObject({ countedStarts: 2, primedStarts: 1 });
  });

  it('are doubted where they followed too soon, and where each was faster than the one before', () => {
    const series = only(
      [5, 4.6, 4.1, 3.8, 3.4].map((timeS) => ({ timeS })),
      { everyMin: 5 },
    );
    expect(series.warnings.map(({ code }) => code)).toEqual(['STARTS_TOO_CLOSE', 'GETS_FASTER']);
    // Recorded for one minute each, every five: four of the ten that the house asks for.
    expect(series.warnings[0]?.text).toContain('20260611-drylift-2 (4 of 10 min)');
  });

  it('have no tolerance interval before there are three times', () => {
    expect(only(five.slice(0, 2)).tolerance).toBeNull();
    expect(only(five.slice(0, 3)).tolerance?.factor).toBeCloseTo(9.789, 3);
  });
});
