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
