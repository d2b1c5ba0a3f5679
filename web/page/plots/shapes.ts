import type { SeriesStyle } from './palette.ts';

/** What drawings are made of, in the units of their axes. */

export type Point = readonly [x: number, y: number];

/** From low to high along y, at x. */
export type Bar = { readonly x: number; readonly low: number; readonly high: number };

/** A line on which a mapped value is the same; the main ones are drawn heavier. */
export type Contour = {
  readonly label: string;
  readonly isMain: boolean;
  readonly lines: readonly (readonly Point[])[];
};

/** A stretch of cells in one row, from edge to edge. */
export type Stretch = {
  readonly fromX: number;
  readonly toX: number;
  readonly fromY: number;
  readonly toY: number;
};

/** One series of a chart: a line, its band, its points; each part may be empty. */
export type ChartSeries = {
  readonly label: string;
  readonly style: SeriesStyle;
  readonly line: readonly Point[];
  /** Lower and upper edge, along the same x. */
  readonly band: readonly Bar[];
  readonly points: readonly Point[];
  readonly openPoints: readonly Point[];
  /** How far each point may be off, as upright bars. */
  readonly bars?: readonly Bar[];
  /** False: it belongs to a series that the legend has already. */
  readonly isListed?: boolean;
};
