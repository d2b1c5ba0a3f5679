import { describe, expect, it } from 'vitest';
import type { Demand } from '../../../analysis/records/dutyRecord.ts';
import { PRACTICE_OIL, PRACTICE_RUN_SET_UP } from '../../../rig/session/practiceConditions.ts';
import { OIL_FIELDS, oilFrom, SET_UP_FIELDS, setUpFrom, startBefore } from '../../../web/page/bench/startFields.ts';
import { typedText } from '../../../web/page/forms/askedQuantity.ts';
import type { Draft, FormState } from '../../../web/page/forms/formState.ts';
import { readFields } from '../../../web/page/forms/readFields.ts';
import { STRIP_SPAN_S, StripBuffer } from '../../../web/page/live/stripBuffer.ts';
import { niceRange, niceTicks } from '../../../web/page/plots/niceTicks.ts';
import { shownText } from '../../../web/page/words/channelDisplay.ts';
import { demandWords, probabilityWords } from '../../../web/page/words/demandWords.ts';
import { clockFace } from '../../../web/page/words/moments.ts';
import { spanOf } from '../../../web/page/words/spanOf.ts';
import { unitSystem } from '../../../web/page/words/unitSystem.ts';
import { expectRelative } from '../../support/expectRelative.ts';

describe('the start form', () => {
  const defaults = {
    origin: 'practice bench',
    operator: 'A. Fitter',
    oil: PRACTICE_OIL,
    setUp: PRACTICE_RUN_SET_UP,
  } as const;
  const draft: Draft = {
    text: () => null,
    set: () => undefined,
    isEmpty: () => true,
    clear: () => undefined,
    undo: () => null,
  };

  it.each(['metric', 'US'] as const)('gives back every number as it came, through %s units', (system) => {
    const form: FormState = { draft, system, before: startBefore(defaults), refused: {}, wasTried: false };
    const { values, errors } = readFields(form, [...SET_UP_FIELDS, ...OIL_FIELDS]);
    expect(errors).toEqual({});
    const setUp = setUpFrom(values, 'W1', PRACTICE_RUN_SET_UP);
    expectRelative(setUp.barometerPa.value, 101_325, 1e-8);
    expectRelative(setUp.suctionPipeBoreM, PRACTICE_RUN_SET_UP.suctionPipeBoreM, 1e-8);
    expectRelative(setUp.staticLiftM.value, PRACTICE_RUN_SET_UP.staticLiftM.value, 1e-8);
    const oil = oilFrom(values, PRACTICE_OIL.name, 'measured');
    expectRelative(oil.lower.temperatureK, PRACTICE_OIL.lower.temperatureK, 1e-8);
    expectRelative(oil.lower.kinematicViscosityM2PerS, PRACTICE_OIL.lower.kinematicViscosityM2PerS, 1e-8);
    expectRelative(oil.densityRelativeStandardUncertainty, 0.002, 1e-8);
  });

  it('shows them as a workshop types them', () => {
    const [barometer] = SET_UP_FIELDS;
    if (barometer === undefined) throw new Error('no field');
    expect(typedText(barometer, 101_325, 'metric')).toBe('1013.25 mbar'); // 100 Pa a mbar
  });
});

describe('the strips', () => {
  const reading = (atS: number, flow = atS) => ({ atS, values: { flow } });

  it('hold the last two minutes and no more', () => {
    const buffer = new StripBuffer();
    buffer.add(Array.from({ length: 3_000 }, (_, index) => reading(index / 10))); // 0 to 299.9 s
    const { atS } = buffer;
    const flow = buffer.column('flow');
    expect(atS[0]).toBeGreaterThanOrEqual(-STRIP_SPAN_S);
    expect(atS[0]).toBeLessThan(-STRIP_SPAN_S + 1);
    expect(atS.at(-1)).toBe(0);
    expect(flow.at(-1)).toBe(299.9);
    expect(flow.length).toBe(atS.length);
  });

  it('stay as small on a bench that sends faster than anybody can draw, and lose no spike', () => {
    const buffer = new StripBuffer();
    const spiked = (index: number) => (index === 150_001 ? 7 : index === 150_002 ? -7 : 1);
    buffer.add(Array.from({ length: 200_000 }, (_, index) => reading(index / 1_000, spiked(index))));
    // two rows for each of at most 481 quarters of a second
    expect(buffer.atS.length).toBeLessThanOrEqual(2 * 481 + 2);
    expect(buffer.latest?.atS).toBe(199.999);
    const flow = buffer.column('flow');
    expect(flow.indexOf(-7) - flow.indexOf(7)).toBe(1); // up first, then down
  });

  it('begin anew when the bench time goes back', () => {
    const buffer = new StripBuffer();
    buffer.add([reading(500), reading(501), reading(0), reading(1)]);
    expect(buffer.column('flow')).toEqual([0, 0, 1, 1]);
  });
});

describe('scales and words', () => {
  it('divides a scale by 1, 2 or 5 times a power of ten', () => {
    expect(niceTicks(0, 4.2, 5)).toEqual({ ticks: [0, 1, 2, 3, 4], decimals: 0 });
    expect(niceTicks(0.96, 1.02, 5).decimals).toBe(2);
    expect(niceTicks(3, 3, 5).ticks).toEqual([3]);
    // (1.2000000000000002 - 0.2) / 5 is more than 0.2 by its last digit
    expect(niceTicks(0.2, 0.2 * 6, 5).ticks.length).toBe(6);
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

  it('shows US customary units to whom they are usual', () => {
    unitSystem.value = 'US';
    // 300 000 Pa / 6 894.757 Pa a psi = 43.51; 318.15 K is 45 °C, 113 °F (NIST SP 811, appendix B)
    expect(shownText('deliveryPressure', 401_325, 101_325)).toBe('43.5');
    expect(shownText('oilTemperature', 318.15, 101_325)).toBe('113.0');
    unitSystem.value = 'metric';
    expect(shownText('oilTemperature', 318.15, 101_325)).toBe('45.0');
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
