import { describe, expect, it } from 'vitest';
import { volumetricEfficiency } from '../../../analysis/delivery/volumetricEfficiency.ts';
import { exactly } from '../../../analysis/uncertainty/source.ts';
import { siFrom, unitOf } from '../../../analysis/units.ts';
import { expectRelative } from '../../support/expectRelative.ts';

/** Efficiency from a flow, a capacity and a speed with their units. */
function efficiency(flow: number, flowUnit: string, capacity: number, capacityUnit: string, rPerMin: number): number {
  const si = (reading: number, symbol: string) => exactly(siFrom(reading, unitOf(symbol), 0));
  return volumetricEfficiency(si(flow, flowUnit), si(capacity, capacityUnit), si(rPerMin, 'r/min')).value;
}

describe('volumetricEfficiency', () => {
  it('is delivered flow over capacity times speed', () => {
    // ISO 4391 and 4409, from memory, worked: 28.0 l/min of 20 cm³ at 1500 r/min is 0.933333333.
    expectRelative(efficiency(28, 'l/min', 20, 'cm3/rev', 1500), 0.933333333, 1e-9);
  });

  it('is a ratio of flows per turn, loaded over unloaded', () => {
    // JB/T 7041 and 7042 (read in pages reproducing them), worked: 28.0 l/min at 1480 r/min under load, 30.4 at 1497 without:
    // 0.931632290.
    expectRelative(efficiency(28, 'l/min', 30.4e3 / 1497, 'cm3/rev', 1480), 0.93163229, 1e-8);
  });

  it('follows textbook examples in US units', () => {
    // Esposito, Fluid Power with Applications, from memory, recomputed: a gear pump of (π/4)(3² − 2²) = 3.926991 in³ at
    // 1800 r/min delivering 28 US gal/min: 0.915035 (the 91.3 % said to be printed there follows from no rounding of its data);
    // 5 in³, 20 US gal/min at 1000 r/min: 0.924000 (book 0.926).
    expectRelative(efficiency(28, 'US gal/min', (Math.PI / 4) * (3 ** 2 - 2 ** 2), 'in3/rev', 1800), 0.915035, 1e-6);
    expectRelative(efficiency(20, 'US gal/min', 5, 'in3/rev', 1000), 0.924, 1e-6);
  });

  it('is never clipped, and refuses a pump or a shaft that is none', () => {
    // By hand: 33/30.
    expectRelative(efficiency(33, 'l/min', 20, 'cm3/rev', 1500), 1.1, 1e-12);
    expect(() => volumetricEfficiency(exactly(1e-4), exactly(0), exactly(25))).toThrow(/capacity/);
    expect(() => volumetricEfficiency(exactly(1e-4), exactly(2e-5), exactly(Number.NaN))).toThrow(/speed/);
  });
});
