import { BLANKED_CAUTION, blankedAdvice } from '../../../../analysis/guide/blankedWords.ts';
import type { PumpRecord } from '../../../../analysis/records/pumpRecord.ts';

/** Where the limit is wide: which start would narrow it, and what to mind; a pump that must not run dry is not asked to. */
export function BlankedAdvice({ pump }: { readonly pump: PumpRecord }) {
  const advice = blankedAdvice(pump);
  return (
    <>
      <p>{advice.text}</p>
      {advice.isAllowed && <p class="faint">{BLANKED_CAUTION}</p>}
    </>
  );
}
