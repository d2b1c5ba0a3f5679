import { describe, expect, it } from 'vitest';
import { analyseRun } from '../../../analysis/analyseRun.ts';
import { fittedFlow } from '../../../analysis/delivery/slipLaw.ts';
import { QUALITY, type Readings } from '../../../analysis/readings.ts';
import { type BenchRecord, benchRecord } from '../../../analysis/records/benchRecord.ts';
import { sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { coverageFactor } from '../../../analysis/uncertainty/studentT.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { inventedRun } from '../../support/inventedRun.ts';
import { censusOf, steppedReadings } from '../../support/steppedRun.ts';

/** Derived capacity and flow at 900 r/min and 3 bar, each with all its sources and with those alone that scatter. */
function answersOf(readings: Readings, bench: BenchRecord = inventedBench()) {
  const run = inventedRun('delivery', bench);
  const result = analyseRun({ run, readings, census: censusOf(readings), isPractice: false, exclusions: [] });
  const law = result.delivery?.law;
  if (!law?.ok) throw new Error('no law');
  const random = Object.values(result.sources).map((source) =>
    source.kind === 'random' ? source : { ...source, standardUncertainty: 0 },
  );
  const at = { speedRevPerS: 15, differentialPressurePa: 3e5, dynamicViscosityPaS: 0.046, densityKgPerM3: 857 };
  return [law.value.uncertain.derivedCapacityM3PerRev, fittedFlow(law.value, at)].map((value) => ({
    whole: stateUncertainty(value, result.sources),
    scatter: stateUncertainty(value, sourceTable(random)),
  }));
}

/** Every so many-th reading, from the first on. */
function everyNth(readings: Readings, step: number): Readings {
  const kept = (_: unknown, index: number): boolean => index % step === 0;
  const channels = Object.entries(readings.channels).map(([name, column]) => {
    const values = column.values.filter(kept);
    return [name, { values, quality: new Uint8Array(values.length).fill(QUALITY.good) }];
  });
  return { ...readings, elapsedS: readings.elapsedS.filter(kept), channels: Object.fromEntries(channels) };
}

/** The same bench as its twin with other gauges' scales would be written down: kPa, m³/h and rev/s. */
function inOtherUnits(): BenchRecord {
  const perUnit: Readonly<Record<string, readonly [string, number]>> = {
    'bar(a)': ['kPa(a)', 100],
    'bar(g)': ['kPa(g)', 100],
    'l/min': ['m3/h', 0.06],
    'r/min': ['rev/s', 1 / 60],
  };
  const bench = inventedBench();
  const channels = bench.channels.map((channel) => {
    const [unit, factor] = perUnit[channel.unit] ?? [channel.unit, 1];
    const { range, calibration } = channel;
    return {
      ...channel,
      unit,
      range: { min: range.min * factor, max: range.max * factor },
      calibration:
        calibration === null
          ? null
          : {
              ...calibration,
              offset: {
                ...calibration.offset,
                standardUncertainty: (calibration.offset?.standardUncertainty ?? 0) * factor,
              },
            },
    };
  });
  return benchRecord.parse({ ...bench, channels });
}

describe('the answer of a delivery run', () => {
  it('does not depend on the units that the bench record is written in', () => {
    const others = answersOf(steppedReadings(), inOtherUnits());
    for (const [index, plain] of answersOf(steppedReadings()).entries()) {
      expectRelative(others[index]?.whole.value ?? 0, plain.whole.value, 1e-9);
      expectRelative(others[index]?.whole.expandedUncertainty ?? 0, plain.whole.expandedUncertainty, 1e-6);
    }
  });

  it('is within its random uncertainty the same at half the readings a second', () => {
    const halves = answersOf(everyNth(steppedReadings(), 2));
    for (const [index, { scatter }] of answersOf(steppedReadings()).entries()) {
      const half = halves[index]?.scatter;
      if (half === undefined) throw new Error('no answer');
      // Half the readings are among the whole, so that the difference scatters by less than both together; 99.9 % of it.
      const reach =
        coverageFactor(half.degreesOfFreedom, 0.999) *
        Math.hypot(scatter.standardUncertainty, half.standardUncertainty);
      expect(Math.abs(half.value - scatter.value)).toBeLessThan(reach);
    }
  });
});
