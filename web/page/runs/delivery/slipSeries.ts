import type { AgainstTheory } from '../../../../analysis/result.ts';
import type { Stated } from '../../../../analysis/uncertainty/stated.ts';
import { differenceFrom, unitOf } from '../../../../analysis/units.ts';
import type { ChartSeries } from '../../plots/Chart.tsx';
import { seriesStyle } from '../../plots/palette.ts';
import type { Bar, Point } from '../../plots/shapes.ts';

const LITRES = unitOf('l/min');

/** Measured and predicted stand beside each other, not on each other. */
const ASIDE = 0.14;

type SlipHold = Extract<AgainstTheory['slip'], { ok: true }>['value']['holds'][number];

function series(
  label: string,
  style: number,
  holds: readonly SlipHold[],
  aside: number,
  of: (hold: SlipHold) => Stated,
  isOpen: boolean,
): ChartSeries {
  const points = holds.map((hold): Point => [hold.holdNumber + aside, differenceFrom(of(hold).value, LITRES)]);
  const bars = holds.map((hold): Bar => {
    const { value, expandedUncertainty } = of(hold);
    return {
      x: hold.holdNumber + aside,
      low: differenceFrom(value - expandedUncertainty, LITRES),
      high: differenceFrom(value + expandedUncertainty, LITRES),
    };
  });
  return {
    label,
    style: seriesStyle(style),
    line: [],
    band: [],
    points: isOpen ? [] : points,
    openPoints: isOpen ? points : [],
    bars,
  };
}

/** Slip hold by hold: measured filled, predicted from the strip sheet open, each with its expanded uncertainty. */
export function slipSeries(holds: readonly SlipHold[]): readonly ChartSeries[] {
  return [
    series('measured', 0, holds, -ASIDE, ({ measured }) => measured, false),
    series('predicted from the strip sheet', 1, holds, ASIDE, ({ expected }) => expected, true),
  ];
}
