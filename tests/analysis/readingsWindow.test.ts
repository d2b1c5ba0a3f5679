import { describe, expect, it } from 'vitest';
import { BAD_LINE_KINDS, type BadLines, type Column, NO_BAD_LINES, type Readings } from '../../analysis/readings.ts';
import { readingsWindow, searchedReadings } from '../../analysis/readingsWindow.ts';
import { uniform } from '../support/random.ts';

function column(values: readonly number[]): Column {
  return { values: Float64Array.from(values), quality: new Uint8Array(values.length) };
}

/** Ten readings a second. */
function searched(flow: readonly number[], badLines: BadLines = NO_BAD_LINES) {
  const elapsedS = Float64Array.from(flow, (_, row) => row / 10);
  const readings: Readings = { elapsedS, channels: { flow: column(flow) }, clock: 'device', clockTie: null };
  return searchedReadings(readings, badLines);
}

describe('a stretch of a run', () => {
  it('is given whole where there are no more readings than dots can show, with one beyond either end', () => {
    const flow = Array.from({ length: 100 }, (_, row) => row);
    flow[52] = Number.NaN;
    // 5.05 to 5.45 s holds rows 51 to 54; 50 and 55 are the ones beyond
    const window = readingsWindow(searched(flow), 5.05, 5.45, 10);
    expect(window).toMatchObject({ isWhole: true, rowCount: 4, lastS: 9.9 });
    expect(window.channels.flow).toEqual({
      elapsedS: [5, 5.1, 5.2, 5.3, 5.4, 5.5],
      values: [50, 51, null, 53, 54, 55],
    });
  });

  it('keeps the lowest and the highest of every dot, found reading by reading, of 20 000 readings (seed 11)', () => {
    const next = uniform(11);
    const flow = Array.from({ length: 20_000 }, () => next());
    const [fromS, toS, dots] = [123.4, 1821, 47];
    const { channels } = readingsWindow(searched(flow), fromS, toS, dots);
    const dotS = (toS - fromS) / dots;
    const drawn = new Map((channels.flow?.elapsedS ?? []).map((atS, at) => [atS, channels.flow?.values[at]]));
    for (let dot = 0; dot < dots; dot += 1) {
      const within = flow
        .map((value, row) => ({ value, atS: row / 10 }))
        .filter(({ atS }) => atS >= fromS + dot * dotS && atS < fromS + (dot + 1) * dotS);
      for (const pick of [Math.min, Math.max]) {
        const extreme = within.reduce((best, each) => (pick(best.value, each.value) === each.value ? each : best));
        expect(drawn.get(extreme.atS)).toBe(extreme.value);
      }
    }
    expect(drawn.size).toBeLessThanOrEqual(3 * dots);
  });

  it('never misses a spike of one reading, wherever it stands', () => {
    for (const row of [0, 1, 63, 64, 4095, 12_345, 19_999]) {
      const flow = Array.from({ length: 20_000 }, () => 5);
      flow[row] = 9;
      expect(readingsWindow(searched(flow), 0, 1999.9, 7).channels.flow?.values, `row ${row}`).toContain(9);
    }
  });

  it('shows a gap of one reading, and keeps the dots apart where the bench was silent', () => {
    const flow = Array.from({ length: 5_000 }, () => 1);
    flow[2_500] = Number.NaN;
    const { channels } = readingsWindow(searched(flow), 0, 499.9, 20);
    expect(channels.flow?.elapsedS[channels.flow.values.indexOf(null)]).toBe(250);
  });

  it('counts the bad lines of each dot by kind', () => {
    const kinds = Uint8Array.from([BAD_LINE_KINDS.indexOf('checksum'), BAD_LINE_KINDS.indexOf('torn'), 7, 0]);
    const bad = { elapsedS: Float64Array.from([1, 1.2, 6, 60]), kinds };
    const { badLines } = readingsWindow(searched([1, 2, 3], bad), 0, 10, 10);
    expect(badLines).toEqual([
      { elapsedS: 1, count: 2, kinds: ['checksum', 'torn'] },
      { elapsedS: 6, count: 1, kinds: ['reconnected'] },
    ]);
  });

  it('refuses a stretch without length, and no dots', () => {
    expect(() => readingsWindow(searched([1, 2]), 3, 3, 10)).toThrow(/toS: 3/);
    expect(() => readingsWindow(searched([1, 2]), 0, 3, 0)).toThrow(/dots: 0/);
  });
});
