import { describe, expect, it } from 'vitest';
import type { Demand } from '../../../analysis/records/dutyRecord.ts';
import { PRACTICE_OIL, PRACTICE_RUN_SET_UP } from '../../../rig/session/practiceConditions.ts';
import { OIL_FIELDS, oilFrom, SET_UP_FIELDS, setUpFrom, typedDefault } from '../../../web/page/bench/numberFields.ts';
import { STRIP_SPAN_S, StripBuffer } from '../../../web/page/live/stripBuffer.ts';
import { niceRange, niceTicks } from '../../../web/page/plots/niceTicks.ts';
import { shownText } from '../../../web/page/words/channelDisplay.ts';
import { demandWords, probabilityWords } from '../../../web/page/words/demandWords.ts';
import { clockFace } from '../../../web/page/words/moments.ts';
import { spanOf } from '../../../web/page/words/spanOf.ts';
import { expectRelative } from '../../support/expectRelative.ts';

describe('the start form', () => {
  it('gives back every number as it came, through the units in which it is typed', () => {
    const defaults = {
      origin: 'practice bench',
      operator: 'A. Fitter',
      oil: PRACTICE_OIL,
      setUp: PRACTICE_RUN_SET_UP,
    } as const;
    const form = new FormData();
    for (const of of [...SET_UP_FIELDS, ...OIL_FIELDS]) form.set(of.name, typedDefault(of, defaults));
    expect(form.get('bore')).toBe('25'); // 0.025 m in mm
    expect(form.get('lowerT')).toBe('40'); // 313.15 K in degC
    expect(form.get('barometer')).toBe('1013.25'); // 101 325 Pa in mbar
    const setUp = setUpFrom(form, 'W1', PRACTICE_RUN_SET_UP);
    expect(setUp.barometerPa).toEqual({ value: 101_325, standardUncertainty: 50 });
    expectRelative(setUp.suctionPipeBoreM, PRACTICE_RUN_SET_UP.suctionPipeBoreM, 1e-12);
    const oil = oilFrom(form, PRACTICE_OIL.name, 'measured');
    expectRelative(oil.lower.kinematicViscosityM2PerS, PRACTICE_OIL.lower.kinematicViscosityM2PerS, 1e-12);
    expectRelative(oil.densityRelativeStandardUncertainty, 0.002, 1e-12);
  });
});

describe('the strips', () => {
  const reading = (atS: number) => ({ atS, values: { flow: atS } });

  it('hold the last two minutes and no more', () => {
    const buffer = new StripBuffer();
    buffer.add(Array.from({ length: 3_000 }, (_, index) => reading(index / 10))); // 0 to 299.9 s
    const { atS, channels } = buffer.columns();
    expectRelative(atS[0] ?? Number.NaN, -STRIP_SPAN_S, 1e-9);
    expect(atS.at(-1)).toBe(0);
    expect(channels.flow?.at(-1)).toBe(299.9);
  });

  it('stay bounded on a bench that sends faster than anybody can draw', () => {
    const buffer = new StripBuffer();
    buffer.add(Array.from({ length: 50_000 }, (_, index) => reading(index / 1_000)));
    expect(buffer.columns().atS.length).toBeLessThanOrEqual(20_000);
    expect(buffer.latest?.atS).toBe(49.999);
  });

  it('begin anew when the bench time goes back', () => {
    const buffer = new StripBuffer();
    buffer.add([reading(500), reading(501), reading(0), reading(1)]);
    expect(buffer.columns().atS).toEqual([-1, 0]);
  });
});

describe('scales and words', () => {
  it('divides a scale by 1, 2 or 5 times a power of ten', () => {
    expect(niceTicks(0, 4.2, 5)).toEqual({ ticks: [0, 1, 2, 3, 4], decimals: 0 });
    expect(niceTicks(0.96, 1.02, 5).decimals).toBe(2);
    expect(niceTicks(3, 3, 5).ticks).toEqual([3]);
  });

  it('widens a range to whole steps, a single value too', () => {
    const [low, high] = niceRange(80, 99, 5);
    expect([low, high]).toEqual([75, 100]); // steps of 5 about 79.24 to 99.76
    expect(niceRange(2, 2, 5)[1]).toBeGreaterThan(2);
  });

  it('shows a gauge pressure over the barometer and a dash for what is missing', () => {
    expect(shownText('deliveryPressure', 401_325, 101_325)).toBe('3.00'); // 300 000 Pa over it
    expect(shownText('speed', 15, 101_325)).toBe('900');
    expect(shownText('flow', null, 101_325)).toBe('–');
  });

  it('never claims certainty', () => {
    expect(probabilityWords(0.99999)).toBe('over 99.9 %');
    expect(probabilityWords(0.0001)).toBe('under 0.1 %');
    expect(probabilityWords(0.953)).toBe('95 %');
    expect(probabilityWords(0.995)).toBe('99.5 %');
  });

  it('says a demand in shop-floor units', () => {
    const demand: Demand = {
      id: 'feed-flow',
      origin: 'maker',
      note: '',
      quantity: 'deliveredFlow',
      at: { speedRevPerS: 15, differentialPressurePa: 300_000, oilTemperatureK: 318.15 },
      atLeastM3PerS: 0.000175,
    };
    // 0.000175 m³/s × 60 000 = 10.5 l/min
    expect(demandWords(demand)).toEqual({
      what: 'flow at 900 r/min, 3.0 bar difference and 45 °C',
      limit: 'at least 10.50',
      unitSymbol: 'l/min',
    });
  });

  it('tells the clock and the span of what is there', () => {
    expect(clockFace(3_723.9)).toBe('01:02:03'); // 3600 + 2 × 60 + 3
    expect(spanOf([3, null, -1, 2])).toEqual([-1, 3]);
    expect(spanOf([null])).toEqual([null, null]);
  });
});
