/** Paper and type of a certificate. Lengths in points, 1/72 inch. */

/** [pt] per millimetre. */
export const MM = 72 / 25.4;

export type Paper = { readonly widthPt: number; readonly heightPt: number };

/** ISO 216 A4; US Letter, 8.5 by 11 inches. */
export const PAPERS = {
  A4: { widthPt: 210 * MM, heightPt: 297 * MM },
  letter: { widthPt: 612, heightPt: 792 },
} as const satisfies Record<string, Paper>;
export type PaperName = keyof typeof PAPERS;

/** 25 mm on the left for a file punch. */
export const MARGINS = { left: 25 * MM, right: 15 * MM, top: 13 * MM, bottom: 16 * MM } as const;

/** Ink that still reads when printed in grey. */
export const INK = '#17202b';
export const QUIET_INK = '#56606b';
export const HAIRLINE = '#a9b1b9';
export const PALE_LINE = '#d5d9dd';
export const SPECIMEN_TINT = '#ededea';
/** Where the law may lie: pale enough that points read on it. */
export const BAND_OPACITY = 0.16;

export type TextStyle = {
  readonly sizePt: number;
  readonly weight: 'regular' | 'semibold';
  readonly colour: string;
};

export const STYLES = {
  title: { sizePt: 19, weight: 'semibold', colour: INK },
  heading: { sizePt: 9.6, weight: 'semibold', colour: INK },
  sentence: { sizePt: 11, weight: 'regular', colour: INK },
  body: { sizePt: 8.4, weight: 'regular', colour: INK },
  strong: { sizePt: 8.4, weight: 'semibold', colour: INK },
  small: { sizePt: 7.2, weight: 'regular', colour: INK },
  smallStrong: { sizePt: 7.2, weight: 'semibold', colour: INK },
  quiet: { sizePt: 7.2, weight: 'regular', colour: QUIET_INK },
  figures: { sizePt: 6.9, weight: 'regular', colour: INK },
  quietFigures: { sizePt: 6.9, weight: 'regular', colour: QUIET_INK },
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
