/** A printed 95 % interval against the truth. */
export type Figure = { readonly value: number; readonly halfWidth: number; readonly truth: number };

export const FIGURES = ['capacity', 'slip', 'efficiency', 'flow'] as const;
export type FigureName = (typeof FIGURES)[number];

/** What a run says of its bench; half widths of the oracle's intervals beside it. */
export type Measured =
  | {
      readonly isRefused: false;
      readonly figures: Readonly<Record<FigureName, Figure>>;
      readonly oracleHalfWidths: OracleHalfWidths;
    }
  | { readonly isRefused: true; readonly code: string };

export type OracleHalfWidths = Readonly<Record<FigureName, number>>;
