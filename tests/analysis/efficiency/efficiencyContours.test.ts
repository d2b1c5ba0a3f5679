import { describe, expect, it } from 'vitest';
import { type EfficiencyContour, efficiencyContours } from '../../../analysis/efficiency/efficiencyContours.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const SPEEDS = [5, 10, 15, 20, 25];
const PRESSURES = [1e5, 2e5, 3e5, 4e5];
const AXES = { speedsRevPerS: SPEEDS, differentialPressuresPa: PRESSURES };

function contoursOf(
  efficiencyAt: (speedRevPerS: number, pressurePa: number) => number,
  efficiency: number,
): EfficiencyContour {
  const values = PRESSURES.flatMap((pressurePa) =>
    SPEEDS.map((speedRevPerS) => efficiencyAt(speedRevPerS, pressurePa)),
  );
  const [contour] = efficiencyContours(AXES, { values }, [efficiency]);
  if (contour === undefined) throw new Error('no contour');
  return contour;
}

describe('lines of equal efficiency', () => {
  it('lie where a plane has its value, from edge to edge and not along them', () => {
    // η = n/25 is 0.5 at 12.5 rev/s, whatever the pressure: one line through all four pressures.
    const { lines } = contoursOf((n) => n / 25, 0.5);
    expect(lines).toHaveLength(1);
    const [line = []] = lines;
    for (const { speedRevPerS } of line) expectRelative(speedRevPerS, 12.5, 1e-12);
    expect(new Set(line.map(({ differentialPressurePa }) => differentialPressurePa))).toEqual(new Set(PRESSURES));
  });

  it('cross both axes where efficiency falls with pressure and rises with speed', () => {
    // η = 0.5 + n/100 − Δp/1e6 is 0.45 where Δp = 1e4 (n + 5): straight, so that linear steps between cells are exact.
    const { lines } = contoursOf((n, dp) => 0.5 + n / 100 - dp / 1e6, 0.45);
    expect(lines).toHaveLength(1);
    for (const { speedRevPerS, differentialPressurePa } of lines[0] ?? []) {
      expectRelative(differentialPressurePa, 1e4 * (speedRevPerS + 5), 1e-9);
    }
    expect(lines[0]?.length).toBeGreaterThan(3);
  });

  it('close round a best point', () => {
    const { lines } = contoursOf((n, dp) => 1 - Math.abs(n - 15) / 50 - Math.abs(dp - 2e5) / 1e6, 0.92);
    expect(lines).toHaveLength(1);
    expect(lines[0]?.[0]).toEqual(lines[0]?.at(-1));
  });

  it('are two where the value is met on two sides', () => {
    // η = 1 − |n − 15|/50 is 0.85 at 7.5 and 22.5 rev/s.
    const { lines } = contoursOf((n) => 1 - Math.abs(n - 15) / 50, 0.85);
    const speeds = lines.map((line) => line[0]?.speedRevPerS ?? 0).sort((a, b) => a - b);
    expect(speeds).toHaveLength(2);
    expectRelative(speeds[0] ?? 0, 7.5, 1e-12);
    expectRelative(speeds[1] ?? 0, 22.5, 1e-12);
  });

  it('are none where the map does not reach the value', () => {
    expect(contoursOf((n) => n / 25, 1.5)).toEqual({ efficiency: 1.5, lines: [] });
    expect(contoursOf((n) => n / 25, 0.01).lines).toEqual([]);
  });
});
