import type { HoldResult } from '../../../../analysis/result.ts';

/** A hold as it is grouped by speed and drawn. */
export type DrawnHold = Omit<HoldResult, 'dynamicViscosityPaS' | 'densityKgPerM3'> & {
  readonly dynamicViscosityPaS: number;
  readonly densityKgPerM3: number;
};

export function drawnHold(hold: HoldResult): DrawnHold {
  return {
    ...hold,
    dynamicViscosityPaS: hold.dynamicViscosityPaS.value,
    densityKgPerM3: hold.densityKgPerM3.value,
  };
}
