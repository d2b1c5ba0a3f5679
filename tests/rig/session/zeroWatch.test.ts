import { describe, expect, it } from 'vitest';
import { createPracticeBench } from '../../../rig/practiceBench/createPracticeBench.ts';
import type { PracticePlant } from '../../../rig/practiceBench/plant.ts';
import { PRACTICE_SET_UP } from '../../../rig/practiceBench/setUp.ts';
import { ZeroWatch } from '../../../rig/session/zeroWatch.ts';
import { sampleBench } from '../../support/samples.ts';

const CONDITIONS = {
  barometerPa: PRACTICE_SET_UP.barometerPa,
  oilDensityKgPerM3: PRACTICE_SET_UP.densityAt15CKgPerM3,
};

/** A practice bench watched for so long, told these commands at these times [s]. */
function watched(seed: number, forS: number, commands: Readonly<Record<number, string>>, plant: PracticePlant = {}) {
  const bench = createPracticeBench({ seed, scenario: 'healthy', plant });
  const watch = new ZeroWatch(sampleBench(), CONDITIONS);
  for (let tenth = 0; tenth < 10 * forS; tenth += 1) {
    const command = commands[tenth / 10];
    if (command !== undefined) bench.command(command);
    for (const sentence of bench.step(0.1)) {
      watch.received({ monotonicUs: tenth * 1e5, bytes: sentence.trimEnd(), fault: null });
    }
  }
  return watch;
}

describe('a zero check at the bench', () => {
  it('finds the zeros of a bench at rest near nothing, seed 4', async () => {
    const zero = await watched(4, 8, {}).taken;
    // The speed first: where it turns, nothing else is to blame.
    expect(zero.channels.map(({ channel }) => channel)).toEqual([
      'speed',
      'suctionPressure',
      'deliveryPressure',
      'flow',
      'torque',
    ]);
    for (const { channel, offset, standardUncertainty, isApplied } of zero.channels) {
      const stated = sampleBench().channels.find((entry) => entry.channel === channel)?.calibration?.offset;
      // Drawn from the stated offset: five of its standard uncertainties and of the check's own, no bench in a million beyond.
      const reach = 5 * Math.hypot(stated?.standardUncertainty ?? 0, standardUncertainty);
      expect(Math.abs(offset), channel).toBeLessThanOrEqual(reach);
      expect(isApplied).toBe(false);
    }
  });

  it('waits for a shaft that runs down, seed 5', async () => {
    const zero = await watched(5, 20, { 0: 'speed 600', 4: 'speed 0' }).taken;
    expect(zero.channels.find(({ channel }) => channel === 'speed')?.offset).toBeCloseTo(0, 0);
  });

  it('is given up where the shaft goes on turning, seed 6', async () => {
    // Flow and speed both tell; which is named is the zero check's own affair.
    const code = expect.stringMatching(/^ZERO_(SHAFT_TURNS|NOT_AT_REST)$/);
    await expect(watched(6, 25, { 0: 'speed 600' }).taken).rejects.toMatchObject({ code });
  });

  it('ends with what there is where the line says nothing', async () => {
    const watch = watched(8, 1, {});
    watch.end();
    await expect(watch.taken).rejects.toMatchObject({ code: 'ZERO_TOO_SHORT' });
  });
});
