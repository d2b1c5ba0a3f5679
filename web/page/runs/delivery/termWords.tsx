import type { ComponentChildren } from 'preact';
import type { LawTerm } from '../../../../analysis/result.ts';

export const TERM_SYMBOLS: Readonly<Record<LawTerm, ComponentChildren>> = {
  derivedCapacityM3PerRev: (
    <>
      V<sub>i</sub>
    </>
  ),
  laminarSlipM3: (
    <>
      C<sub>l</sub>
    </>
  ),
  orificeSlipM2: (
    <>
      C<sub>t</sub>
    </>
  ),
  speedPressureSlipM3PerPa: (
    <>
      C<sub>np</sub>
    </>
  ),
};

/** What a term is to a fitter, and the SI unit of its coefficient. */
export const TERM_WORDS: Readonly<Record<LawTerm, { readonly words: string; readonly siUnit: string }>> = {
  derivedCapacityM3PerRev: { words: 'derived capacity', siUnit: 'm³/rev' },
  laminarSlipM3: { words: 'slip through narrow gaps: less with thick oil', siUnit: 'm³' },
  orificeSlipM2: { words: 'slip through openings: hardly asks for viscosity', siUnit: 'm²' },
  speedPressureSlipM3PerPa: { words: 'lost each turn, more with pressure', siUnit: 'm³/Pa' },
};
