/** Why a dry start yields no leak-back. */
export type DryFitRefusal = {
  readonly code:
    | 'CHANNEL_MISSING'
    | 'TOO_FEW_READINGS'
    | 'DEAD_VOLUME_ZERO'
    | 'PIPE_CANNOT_HOLD_COLUMN'
    | 'SUCTION_NOT_GOOD_ENOUGH'
    | 'NO_SUCTION'
    | 'NOT_A_DRY_START'
    | 'DID_NOT_CONVERGE';
  readonly text: string;
};

/** What stays on the result of a fit. */
export type DryFitWarning = {
  readonly code:
    | 'BAROMETER_CONTRADICTS_SUCTION'
    | 'SUCTION_SIDE_ASSUMED'
    | 'CAPACITY_FROM_GEOMETRY'
    | 'MODEL_MISFIT'
    | 'LIMIT_NOT_IDENTIFIED'
    | 'GAP_CHANGES'
    | 'BLANKED_AT_ONE_SPEED'
    | 'IN_THIS_CLASS_ONLY'
    | 'DEAD_VOLUME_CONTRADICTED'
    | 'SHAFT_LEAK_COUNTED_IN';
  readonly text: string;
};
