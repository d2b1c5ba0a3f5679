/** Paper and type of a certificate. Lengths in points, 1/72 inch. */

/** [pt] per millimetre. */
const MM = 72 / 25.4;

export const PAGE = { widthPt: 210 * MM, heightPt: 297 * MM } as const;

/** 25 mm on the left for a file punch. */
export const MARGINS = { left: 25 * MM, right: 15 * MM, top: 14 * MM, bottom: 17 * MM } as const;

export const TEXT_WIDTH_PT = PAGE.widthPt - MARGINS.left - MARGINS.right;

/** Ink that still reads when printed in grey. */
export const INK = '#17202b';
export const QUIET_INK = '#56606b';
export const HAIRLINE = '#a9b1b9';
export const SPECIMEN_TINT = '#e9e9e6';

export type TextStyle = {
  readonly sizePt: number;
  readonly weight: 'regular' | 'semibold';
  readonly colour: string;
};

export const STYLES = {
  title: { sizePt: 20, weight: 'semibold', colour: INK },
  heading: { sizePt: 10.5, weight: 'semibold', colour: INK },
  sentence: { sizePt: 12, weight: 'regular', colour: INK },
  body: { sizePt: 9, weight: 'regular', colour: INK },
  strong: { sizePt: 9, weight: 'semibold', colour: INK },
  small: { sizePt: 7.6, weight: 'regular', colour: INK },
  smallStrong: { sizePt: 7.6, weight: 'semibold', colour: INK },
  quiet: { sizePt: 7.6, weight: 'regular', colour: QUIET_INK },
} as const satisfies Record<string, TextStyle>;

/**
 * Series by colour, mark and dash, so that none depends on colour alone. Hues: Okabe and Ito (2008), Color Universal
 * Design: blue, vermilion, bluish green, reddish purple, black.
 */
export const SERIES = [
  { colour: '#0072b2', mark: 'circle', dash: null },
  { colour: '#d55e00', mark: 'square', dash: 5 },
  { colour: '#009e73', mark: 'triangle', dash: 2 },
  { colour: '#cc79a7', mark: 'diamond', dash: 8 },
  { colour: '#17202b', mark: 'circle', dash: 1 },
] as const;
export type SeriesLook = (typeof SERIES)[number];
