/** A value as it is printed: with its standard and expanded uncertainty and where they come from. */
export type Stated = {
  readonly value: number;
  readonly standardUncertainty: number;
  /** Effective degrees of freedom (Welch-Satterthwaite); null where every source is taken as known. */
  readonly degreesOfFreedom: number | null;
  readonly coverageFactor: number;
  /** coverageFactor × standardUncertainty, for a coverage probability of 95 %. */
  readonly expandedUncertainty: number;
  /** Largest first. */
  readonly budget: readonly BudgetLine[];
};

export type BudgetLine = {
  /** The source's id, or the name of the common estimate of pooled sources. */
  readonly sourceId: string;
  readonly label: string;
  readonly kind: 'random' | 'calibration';
  /** |∂y/∂s| u(s), root sum of squares over pooled sources; in the unit of the value. */
  readonly contribution: number;
  /** Its share of the variance [1]. */
  readonly share: number;
};
