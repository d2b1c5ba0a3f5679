import { describe, expect, it } from 'vitest';
import { analyseRun } from '../../../analysis/analyseRun.ts';
import { reliefStrokes, type StrokePoint } from '../../../analysis/notSlip/reliefStrokes.ts';
import type { Stated } from '../../../analysis/uncertainty/stated.ts';
import { createOil } from '../../../rig/practiceBench/oil.ts';
import { trueFlowM3PerS } from '../../../rig/practiceBench/pumpTruth.ts';
import { PRACTICE_SET_UP } from '../../../rig/practiceBench/setUp.ts';
import { type PracticeRunOptions, recordPractice, type TimedCommand } from '../../support/practiceRun.ts';

const CRACKING_PA = 4e5;
const OVERSHOOT_PA = 0.8e5;
const LOOK_EVERY_S = 0.5;

/** The body of the bench's valve follows the pressure so late (rig/practiceBench/pumpRelief.ts). */
const BODY_LAG_S = 0.1;

function reliefOf(seed: number, options: PracticeRunOptions) {
  const { run, decoded, bench } = recordPractice('relief', 'healthy', seed, { lookEveryS: LOOK_EVERY_S, ...options });
  const { relief } = analyseRun({ run, ...decoded, exclusions: [] });
  const strokes = reliefStrokes(decoded.readings, run.bench);
  if (!relief?.ok || 'missing' in strokes) throw new Error(JSON.stringify(relief));
  return { relief: relief.value, strokes, truth: bench.truth(), barometerPa: run.setUp.barometerPa.value };
}

/** Rate of the pressure over the last second before it first passes a place [Pa/s]. */
function ratePaPerS(stroke: readonly StrokePoint[], isPast: (point: StrokePoint) => boolean): number {
  const past = stroke.findIndex(isPast);
  const [from, to] = [stroke[past - 5], stroke[past - 1]];
  if (from === undefined || to === undefined) throw new Error('the stroke does not pass the place');
  return (to.differentialPressurePa - from.differentialPressurePa) / (to.atS - from.atS);
}

/**
 * What really happened, from what was planted. The valve acts on gauge pressure; the difference is larger by the vacuum at
 * the inlet. Its body follows late, so that at a rate r the line stands r times the lag further on when it moves. A
 * twentieth of the flow is left where F (p − reseat)/(cracking + overshoot − reseat) = q(p) − q(cracking)/20, F the swept
 * volume times 15 rev/s and q what the pump delivers against p.
 */
function trueOf({ strokes, truth, barometerPa }: ReturnType<typeof reliefOf>, reseatPa: number) {
  const { up, down, speedRevPerS } = strokes;
  const top = up.at(-1);
  if (top === undefined) throw new Error('no stroke');
  const vacuumPa = barometerPa - top.suctionPressurePa;
  const oil = createOil(PRACTICE_SET_UP);
  const flowAt = (gaugePa: number): number => {
    const at = { speedRevPerS, differentialPressurePa: gaugePa + vacuumPa, oilTemperatureK: truth.oilTemperatureK };
    return trueFlowM3PerS(truth.pump, oil, at);
  };
  const fullM3PerS = 15 * truth.sweptVolumeM3PerRev;
  let fullPa = CRACKING_PA;
  // Slip changes little with pressure: each turn is nearer by more than tenfold.
  for (let turn = 0; turn < 9; turn += 1) {
    const passedM3PerS = flowAt(fullPa) - flowAt(CRACKING_PA) / 20;
    fullPa = reseatPa + (passedM3PerS / fullM3PerS) * (CRACKING_PA + OVERSHOOT_PA - reseatPa);
  }
  const opening = ratePaPerS(up, (point) => point.differentialPressurePa > CRACKING_PA + vacuumPa - 3e3);
  const closing = ratePaPerS(down, (point) => point.differentialPressurePa < reseatPa + vacuumPa + 3e3);
  return {
    crackingPa: CRACKING_PA + vacuumPa + BODY_LAG_S * opening,
    fullFlowPa: fullPa + vacuumPa,
    reseatPa: reseatPa + vacuumPa + BODY_LAG_S * closing,
  };
}

type StatedPressure = { readonly found: true; readonly differentialPressurePa: Stated } | { readonly found: false };

function holds(pressure: StatedPressure, truePa: number): boolean {
  if (!pressure.found) return false;
  const { value, expandedUncertainty } = pressure.differentialPressurePa;
  return Math.abs(value - truePa) <= expandedUncertainty;
}

/** Large jumps that throw the pressure back, small ones that hardly do, and none. */
const RESEATS_PA = [3.4e5, 3.6e5, 3.8e5, 3.9e5, 3.95e5];

describe('a valve that pops, on the practice bench', () => {
  it('is seen to crack, to open fully and to reseat, each as often within what is stated as stated, seeds 1 to 20', () => {
    const held = { cracking: 0, fullFlow: 0, reseat: 0 };
    for (let seed = 1; seed <= 20; seed += 1) {
      const reseatPa = RESEATS_PA[seed % RESEATS_PA.length] ?? CRACKING_PA;
      const plant = { relief: { crackingPa: CRACKING_PA, fullFlowOvershootPa: OVERSHOOT_PA, reseatPa } };
      const made = reliefOf(seed, { plant });
      const truth = trueOf(made, reseatPa);
      const { cracking, fullFlow, reseat } = made.relief;
      if (holds(cracking, truth.crackingPa)) held.cracking += 1;
      if (holds(fullFlow, truth.fullFlowPa)) held.fullFlow += 1;
      if (holds(reseat, truth.reseatPa)) held.reseat += 1;
    }
    // Binomial sum for 20 draws at p = 0.95: P(X < 15) = 3.3e-4; more than the stated share is no fault here.
    expect(held.cracking).toBeGreaterThanOrEqual(15);
    expect(held.fullFlow).toBeGreaterThanOrEqual(15);
    expect(held.reseat).toBeGreaterThanOrEqual(15);
  }, 180_000);

  it('is seen to crack where the pressure never comes so high again, seed 7', () => {
    // From 0.5 to 6 bar in half a minute, second by second, and back; the valve takes it all at less than it cracked at.
    const script: readonly TimedCommand[] = [
      ...['flood', 'valve 1', 'speed 900'].map((command) => ({ atS: 0, command })),
      ...Array.from({ length: 61 }, (_, second) => ({
        atS: 5 + second,
        command: `pressure ${(6 - (5.5 * Math.abs(second - 30)) / 30).toFixed(2)}`,
      })),
      { atS: 70, command: 'speed 0' },
    ];
    const plant = { relief: { crackingPa: CRACKING_PA, fullFlowOvershootPa: OVERSHOOT_PA, reseatPa: 3.4e5 } };
    const made = reliefOf(7, { script, plant });
    expect(holds(made.relief.cracking, trueOf(made, 3.4e5).crackingPa)).toBe(true);
    expect(made.relief.reseat.found).toBe(true);
    expect(made.relief.text).toMatch(/^The relief valve cracks at 4\.\d+ ± 0\.0\d+ bar/);
  });

  it('is not found where there is none, seeds 41 to 60', () => {
    for (let seed = 41; seed <= 60; seed += 1) {
      const { relief } = reliefOf(seed, {});
      expect(relief.cracking, `seed ${seed}`).toMatchObject({ found: false, code: 'NEVER_CRACKED' });
    }
  }, 180_000);
});
