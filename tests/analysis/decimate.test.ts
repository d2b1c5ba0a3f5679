import { describe, expect, it } from 'vitest';
import { decimate } from '../../analysis/decimate.ts';
import type { Column, Readings } from '../../analysis/readings.ts';

function column(values: readonly number[]): Column {
  return { values: Float64Array.from(values), quality: new Uint8Array(values.length) };
}

function readings(flow: readonly number[], speed: readonly number[] = []): Readings {
  return {
    elapsedS: Float64Array.from(flow, (_, row) => row / 10),
    channels: speed.length === 0 ? { flow: column(flow) } : { flow: column(flow), speed: column(speed) },
    clock: 'device',
    clockTie: null,
  };
}

describe('decimate', () => {
  it('passes a short record on unchanged, with null where a value is missing', () => {
    expect(decimate(readings([1, Number.NaN, 3]), 100)).toEqual({
      elapsedS: [0, 0.1, 0.2],
      channels: { flow: [1, null, 3] },
    });
  });

  it('keeps the one peak and the one dip of a long flat record, each at its own time', () => {
    const flat = Array.from({ length: 10_000 }, () => 5);
    flat[4321] = 9; // at 432.1 s
    flat[8765] = -2; // at 876.5 s
    const thinned = decimate(readings(flat), 200);
    const flow = thinned.channels.flow ?? [];
    expect(thinned.elapsedS[flow.indexOf(9)]).toBe(432.1);
    expect(thinned.elapsedS[flow.indexOf(-2)]).toBe(876.5);
  });

  it('never gives more rows than it may, whatever two channels do', () => {
    // Rising and falling channels have their extremes at opposite ends of every bucket.
    const rising = Array.from({ length: 5_000 }, (_, row) => row);
    const wild = rising.map((row) => Math.sin(row * row));
    for (const maxRows of [8, 50, 777, 4_000]) {
      const thinned = decimate(readings(rising, wild), maxRows);
      expect(thinned.elapsedS.length).toBeLessThanOrEqual(maxRows);
      expect(thinned.channels.flow?.length).toBe(thinned.elapsedS.length);
      expect(thinned.channels.speed?.length).toBe(thinned.elapsedS.length);
    }
  });

  it('keeps the first and the last row and the order of time', () => {
    const thinned = decimate(readings(Array.from({ length: 1_000 }, (_, row) => (row * 7919) % 1000)), 60);
    expect(thinned.elapsedS[0]).toBe(0);
    expect(thinned.elapsedS.at(-1)).toBe(99.9);
    expect([...thinned.elapsedS].sort((a, b) => a - b)).toEqual(thinned.elapsedS);
  });

  it('shows that a value was missing even where it was only one in thousands', () => {
    const flow = Array.from({ length: 5_000 }, () => 1);
    flow[2500] = Number.NaN;
    expect(decimate(readings(flow), 50).channels.flow).toContain(null);
  });

  it('refuses fewer rows than one bucket takes', () => {
    expect(() => decimate(readings([1, 2, 3]), 4)).toThrow(RangeError); // 2 + 3 × 1 channel = 5
  });
});
