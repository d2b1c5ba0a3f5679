import { describe, expect, it } from 'vitest';
import { BAROMETER_SOURCE_ID, channelSources } from '../../../analysis/calibration/channelSources.ts';
import { analyseReliefRun, type ReliefRun } from '../../../analysis/notSlip/reliefRun.ts';
import type { Readings } from '../../../analysis/readings.ts';
import { sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { accepted } from '../../support/accepted.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { normal } from '../../support/random.ts';
import { sampledReadings } from '../../support/readings.ts';
import { expectWithinStated } from '../../support/withinStated.ts';

const BAROMETER_PA = 101325;
const BENCH = inventedBench();
const SOURCES = sourceTable([
  ...BENCH.channels.flatMap((channel) => channelSources(channel, { onDate: '2026-06-01', zeroCheck: null })),
  {
    id: BAROMETER_SOURCE_ID,
    label: 'barometer',
    kind: 'calibration',
    standardUncertainty: 50,
    degreesOfFreedom: null,
    shape: 'normal',
    pooledAs: null,
  },
]);

/** 210 cm³/s of a pump without load. */
const NO_LOAD_M3PerS = 2.1e-4;

type Stroke = {
  readonly crackPa: number;
  readonly reseatPa: number;
  readonly topPa: number;
  readonly upS: number;
  readonly downS: number;
  /** From shut to fully open. */
  readonly openingPa: number;
  /** Of the flow, lost at once when it opens and back at once when it shuts. */
  readonly jumpShare: number;
};

/** An invented valve: cracks at 5 bar, fully open at 5.5 bar, shut again at 4.5 bar; a minute up and a minute down. */
const VALVE: Stroke = {
  ...{ crackPa: 5e5, reseatPa: 4.5e5, topPa: 5.6e5, upS: 60, downS: 60 },
  ...{ openingPa: 0.5e5, jumpShare: 0 },
};

/** Readings of a run, each channel late by its lag, with noise of 0.1 % of the flow and 100 Pa. */
function reliefReadings(seed: number, stroke: Stroke): Readings {
  const noise = normal(seed);
  const { crackPa, reseatPa, topPa, upS, downS, openingPa, jumpShare } = stroke;
  const lowPa = 0.5e5;
  const differencePa = (atS: number): number => {
    if (atS <= upS) return lowPa + ((topPa - lowPa) * Math.max(0, atS)) / upS;
    return topPa - (topPa - lowPa) * Math.min(1, (atS - upS) / Math.max(downS, 0.5));
  };
  const flowAt = (atS: number): number => {
    const pressurePa = differencePa(atS);
    // Open as far as the spring lets it, and on the way down by a lower line: 0.5 bar from shut to open.
    const shutPa = atS <= upS ? crackPa : reseatPa;
    const beyond = (pressurePa - shutPa) / openingPa;
    const openShare = beyond < 0 ? 0 : Math.min(1, jumpShare + beyond);
    return (NO_LOAD_M3PerS - 2e-11 * pressurePa) * (1 - openShare);
  };
  const lagOf = (name: string): number => BENCH.channels.find(({ channel }) => channel === name)?.lagS ?? 0;
  return sampledReadings(upS + Math.max(downS, 0.5), 50, {
    speed: () => 15 * (1 + 1e-4 * noise()),
    suctionPressure: () => 1e5 + 50 * noise(),
    deliveryPressure: (atS) => 1e5 + differencePa(atS - lagOf('deliveryPressure')) + 100 * noise(),
    flow: (atS) => flowAt(atS - lagOf('flow')) + 2e-7 * noise(),
  });
}

const analysed = (readings: Readings) => analyseReliefRun(readings, BENCH, BAROMETER_PA, SOURCES);

function pressureOf(run: ReliefRun, which: 'cracking' | 'fullFlow' | 'reseat') {
  const pressure = run[which];
  if (!pressure.found) throw new Error(pressure.text);
  const table = sourceTable([...Object.values(SOURCES), ...run.sources]);
  return stateUncertainty(pressure.differentialPressurePa, table);
}

describe('a relief run', () => {
  it('tells where the valve cracks, opens fully and reseats, and the difference', () => {
    const run = accepted(analysed(reliefReadings(31, VALVE)));
    // The valve the readings were made from; a twentieth is left 19/20 of the way from 5.0 to 5.5 bar.
    expectWithinStated(pressureOf(run, 'cracking'), 5e5);
    expectWithinStated(pressureOf(run, 'fullFlow'), 5.475e5);
    expectWithinStated(pressureOf(run, 'reseat'), 4.5e5);
    expect(Math.abs((run.hysteresisPa?.value ?? 0) - 0.5e5)).toBeLessThan(2e3);
    expect(pressureOf(run, 'cracking').expandedUncertainty).toBeLessThan(5e3);
    expect(run.text).toMatch(/^The relief valve cracks at (4\.99|5\.00)\d ± 0\.\d+ bar/);
  });

  it('sees the offset of the gauges in each pressure and not in their difference', () => {
    const run = accepted(analysed(reliefReadings(32, VALVE)));
    if (!run.cracking.found || run.hysteresisPa === null) throw new Error(run.text);
    expect(run.cracking.differentialPressurePa.sensitivities['deliveryPressure.offset']).toBe(-1);
    // Worked by hand: −1 − (−1).
    expect(run.hysteresisPa.sensitivities['deliveryPressure.offset']).toBe(0);
  });

  it('holds the true cracking pressure within its random uncertainty as often as stated, seeds 1 to 60', () => {
    let held = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const run = accepted(analysed(reliefReadings(seed, { ...VALVE, downS: 0 })));
      const source = run.sources.find(({ id }) => id === 'relief.cracking');
      if (!run.cracking.found || source === undefined) continue;
      const own = { value: run.cracking.differentialPressurePa.value, sensitivities: { [source.id]: 1 } };
      const stated = stateUncertainty(own, sourceTable([source]));
      if (Math.abs(stated.value - VALVE.crackPa) <= stated.expandedUncertainty) held += 1;
    }
    // Binomial sum for 60 draws at p = 0.95: P(X < 50) = 4.8e-4; more than the stated share is no fault here.
    expect(held).toBeGreaterThanOrEqual(50);
  });

  it('tells where a valve that jumps open and shut cracks and reseats, by a share of the flow from 2 % to all of it', () => {
    for (const [index, jumpShare] of [0.02, 0.05, 0.1, 0.3, 0.6, 1].entries()) {
      const run = accepted(analysed(reliefReadings(201 + index, { ...VALVE, jumpShare })));
      expectWithinStated(pressureOf(run, 'cracking'), 5e5);
      expectWithinStated(pressureOf(run, 'reseat'), 4.5e5);
      // As near as one that opens gradually: a step of a quarter second at 5.1 bar a minute either way, rectangular, is
      // 0.95 · 0.021 = 0.02 bar, and the gauges add theirs.
      expect(pressureOf(run, 'cracking').expandedUncertainty).toBeLessThan(5e3);
    }
  });

  it('never says that none cracked while most of the flow is gone: this one opened before a line was to be seen', () => {
    // Open from the first second on: 0.05 bar on, fully open half a bar higher.
    const early = { ...VALVE, crackPa: 0.55e5, reseatPa: 0.52e5 };
    const run = accepted(analysed(reliefReadings(210, early)));
    expect(run.cracking).toMatchObject({ found: false, code: 'CRACKING_NOT_TOLD' });
    expect(run.text).toContain('100 % of the flow is gone');
  });

  it('says that no valve cracked, and up to where', () => {
    const run = accepted(analysed(reliefReadings(33, { ...VALVE, crackPa: 9e5, reseatPa: 8.5e5 })));
    expect(run.cracking).toMatchObject({ found: false, code: 'NEVER_CRACKED' });
    expect(run.hysteresisPa).toBeNull();
    // The last quarter second's mean lies an eighth of a second below the top: 5.6 − 0.125 · 5.1/60 = 5.589 bar.
    expect(run.text).toContain('No relief valve opened up to 5.59 bar');
  });

  it('cries wolf in none of 100 runs without a valve, seeds 101 to 200', () => {
    for (let seed = 101; seed <= 200; seed += 1) {
      const run = accepted(
        analysed(reliefReadings(seed, { ...VALVE, crackPa: 9e5, reseatPa: 8.5e5, upS: 20, downS: 20 })),
      );
      expect(run.cracking.found, `seed ${seed}`).toBe(false);
    }
  });

  it('says that it did not open fully', () => {
    // Shut again where it cracked: two fifths open at the top, and no further open when the pressure turns.
    const run = accepted(analysed(reliefReadings(34, { ...VALVE, reseatPa: 5e5, topPa: 5.2e5 })));
    expect(run.cracking.found).toBe(true);
    expect(run.fullFlow).toMatchObject({ found: false, code: 'NOT_FULLY_OPEN' });
  });

  it('says that the pressure was not let down, and that it was not seen to shut', () => {
    const noDown = accepted(analysed(reliefReadings(35, { ...VALVE, downS: 0 })));
    expect(noDown.reseat).toMatchObject({ found: false, code: 'NO_DOWN_STROKE' });
    const stuck = accepted(analysed(reliefReadings(36, { ...VALVE, reseatPa: 0.3e5 })));
    expect(stuck.reseat).toMatchObject({ found: false, code: 'NEVER_RESEATED' });
  });

  it('refuses a run without a flow meter, without flow, without a stroke, and one taken in two seconds', () => {
    const codeOf = (readings: Readings): string => {
      const run = analysed(readings);
      return run.ok ? 'analysed' : run.reason.code;
    };
    const still = { speed: () => 15, suctionPressure: () => 1e5 };
    const ramp = (atS: number): number => 1.5e5 + 1e4 * atS;
    expect(codeOf(sampledReadings(20, 50, { ...still, deliveryPressure: ramp }))).toBe('CHANNEL_MISSING');
    expect(codeOf(sampledReadings(20, 50, { ...still, deliveryPressure: ramp, flow: () => 0 }))).toBe('NO_FLOW');
    expect(codeOf(sampledReadings(20, 50, { ...still, deliveryPressure: () => 3e5, flow: () => 2e-4 }))).toBe(
      'NO_UP_STROKE',
    );
    expect(codeOf(sampledReadings(20, 50, { ...still, speed: () => 0, deliveryPressure: ramp, flow: () => 0 }))).toBe(
      'NO_UP_STROKE',
    );
    expect(codeOf(reliefReadings(37, { ...VALVE, upS: 2, downS: 2 }))).toBe('TOO_FAST');
  });
});
