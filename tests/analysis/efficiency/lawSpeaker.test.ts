import { describe, expect, it } from 'vitest';
import { channelSources } from '../../../analysis/calibration/channelSources.ts';
import { analyseDelivery, type FittedRun } from '../../../analysis/delivery/analyseDelivery.ts';
import { dutyOutlook } from '../../../analysis/efficiency/dutyOutlook.ts';
import { type LawSpeaker, lawSpeaker } from '../../../analysis/efficiency/lawSpeaker.ts';
import { mapAt } from '../../../analysis/efficiency/mapAt.ts';
import { oilSources } from '../../../analysis/oil/oilStateAt.ts';
import type { HoldState } from '../../../analysis/steady/holdState.ts';
import { holdSources } from '../../../analysis/steady/massBalance.ts';
import { exactly, type Source } from '../../../analysis/uncertainty/source.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { inventedRun } from '../../support/inventedRun.ts';
import { steppedReadings } from '../../support/steppedRun.ts';

type Fitted = {
  readonly value: FittedRun;
  readonly speaker: LawSpeaker;
  readonly holds: readonly HoldState[];
  readonly sources: readonly Source[];
};

const RUN = inventedRun('delivery');

function fitted(): Fitted {
  const base: readonly Source[] = [
    ...RUN.bench.channels.flatMap((channel) => channelSources(channel, { onDate: '2026-06-01', zeroCheck: null })),
    ...oilSources(RUN.oil),
    ...holdSources(),
    {
      id: 'setUp.barometer',
      label: 'barometer',
      kind: 'calibration',
      standardUncertainty: 50,
      degreesOfFreedom: null,
      shape: 'normal',
      pooledAs: null,
    },
  ];
  const analysis = analyseDelivery(RUN, steppedReadings(), exactly(13.9e-6), [], base);
  const value = accepted(analysis.fitted);
  const sources = [...base, ...analysis.sources];
  const law = { coefficients: value.fit.coefficients, uncertain: value.fit.uncertain, range: value.range };
  return { value, speaker: lawSpeaker(RUN, law, null, sources), holds: analysis.holds, sources };
}

const FITTED = fitted();
const AS_RUN = { speedRevPerS: 15, differentialPressurePa: 3e5, oilTemperatureK: 318.15 };

describe('a law that is asked', () => {
  it('says the slip, flow and efficiency that the readings were made with', () => {
    // q = 13.9e-6 · 15 − 5e-11 · 3e5 = 2.085e-4 − 1.5e-5; scatter and other terms of the law leave some thousandths of slip.
    const spoken = accepted(FITTED.speaker.at(AS_RUN));
    expectRelative(spoken.slipM3PerS.value, 1.5e-5, 0.02);
    // At the outlet under 3 bar the oil is denser by Δp/K = 3e5/1.5e9.
    expectRelative(spoken.flowM3PerS.value, (2.085e-4 - 1.5e-5) * (1 - 3e5 / 1.5e9), 0.002);
    expectRelative(spoken.derivedEfficiency.value, 1 - 1.5e-5 / 2.085e-4, 0.002);
  });

  it('carries, without a strip sheet, the growth of the clearances: by the kelvin between run and duty', () => {
    const growth = (oilTemperatureK: number): number => {
      const spoken = accepted(FITTED.speaker.at({ ...AS_RUN, oilTemperatureK }));
      const state = FITTED.speaker.stateWith(spoken.change.sources);
      const line = state(spoken.slipM3PerS).budget.find(({ sourceId }) => sourceId === 'clearance.growth');
      // As a share of the slip itself, which is larger in thinner oil.
      return (line?.contribution ?? 0) / spoken.slipM3PerS.value;
    };
    const { runTemperatureK } = { runTemperatureK: 318.15 };
    expect(growth(runTemperatureK + 20)).toBeGreaterThan(0);
    // Twice the distance, twice the share; the range's middle is the run's temperature within its noise.
    expectRelative(growth(runTemperatureK + 40) / growth(runTemperatureK + 20), 2, 0.02);
  });

  it('draws its map through the point: the same efficiency and the same band', () => {
    const map = accepted(mapAt(FITTED.speaker, exactly(13.9e-6), AS_RUN.oilTemperatureK));
    const column = 20;
    const row = 20;
    const at = {
      speedRevPerS: map.speedsRevPerS[column] ?? 0,
      differentialPressurePa: map.differentialPressuresPa[row] ?? 0,
      oilTemperatureK: AS_RUN.oilTemperatureK,
    };
    const spoken = accepted(FITTED.speaker.at(at));
    const stated = FITTED.speaker.stateWith(spoken.change.sources)(spoken.derivedEfficiency);
    const index = row * map.speedsRevPerS.length + column;
    expectRelative(map.derivedEfficiency.values[index] ?? 0, stated.value, 1e-9);
    expectRelative(map.derivedEfficiency.expandedUncertainties[index] ?? 0, stated.expandedUncertainty, 1e-6);
  });

  it('refuses a map where no hold raised the pressure', () => {
    const { coefficients, uncertain } = FITTED.value.fit;
    const range = { ...FITTED.value.range, differentialPressurePa: [-2e5, -1e4] } as const;
    const speaker = lawSpeaker(RUN, { coefficients, uncertain, range }, null, FITTED.sources);
    expect(mapAt(speaker, exactly(13.9e-6), 318.15)).toMatchObject({ ok: false, reason: { code: 'NO_PRESSURE_RISE' } });
  });
});

describe('the outlook at a duty', () => {
  const demand = {
    id: 'invented',
    origin: 'maker',
    note: '',
    quantity: 'deliveredFlow',
    at: AS_RUN,
    atLeastM3PerS: 1.6e-4,
  } as const;
  const run = { fit: FITTED.value.fit, fitted: FITTED.holds, sources: FITTED.sources };

  it('names the slowest speed and the hottest oil at which the flow is just what is asked', () => {
    const outlook = accepted(dutyOutlook(FITTED.speaker, run, demand));
    const slowest = accepted(outlook.slowestMeetingDemand).speedRevPerS.value;
    const atSlowest = accepted(FITTED.speaker.at({ ...AS_RUN, speedRevPerS: slowest }));
    expectRelative(atSlowest.flowM3PerS.value, 1.6e-4, 1e-9);
    const { hottestOil } = outlook;
    if (hottestOil.kind !== 'limit') throw new Error(`hottest oil: ${hottestOil.kind}`);
    const atHottest = accepted(FITTED.speaker.at({ ...AS_RUN, oilTemperatureK: hottestOil.temperatureK.value }));
    expectRelative(atHottest.flowM3PerS.value, 1.6e-4, 1e-6);
    // 5e-11 · 3e5 of slip at 15 rev/s · 13.9 cm³: all of it at (5e-11 · 3e5)/13.9e-6 = 1.079 rev/s.
    expectRelative(accepted(outlook.slowestHoldingPressure).speedRevPerS.value, 1.5e-5 / 13.9e-6, 0.03);
  });
});
