import { BLANKED_CAUTION } from '../../../analysis/guide/blankedWords.ts';
import { longestDryTurningS, whyNeverDry } from '../../../analysis/guide/dryTurning.ts';
import type { WetnessClass } from '../../../analysis/records/fields.ts';
import type { PumpRecord } from '../../../analysis/records/pumpRecord.ts';

/** Kinds of run that turn the pump dry. */
export const DRY_KINDS: ReadonlySet<string> = new Set(['dryLift', 'blanked']);

/** Before a dry start: why this pump is not for it, or how long it may turn and what to mind. */
export function DryCaution(of: { readonly pump: PumpRecord; readonly kind: string; readonly wetness: WetnessClass }) {
  const whyNot = whyNeverDry(of.pump);
  if (whyNot !== null) {
    return (
      <p class="look-here" role="alert">
        {whyNot} A {of.kind === 'blanked' ? 'blanked start' : 'dry-lift run'} is not for it.
      </p>
    );
  }
  return (
    <div data-testid="dry-caution">
      <p class="look-here">
        The pump turns dry, in class {of.wetness} for {longestDryTurningS(of.wetness)} s at the most in all: a house
        limit from common practice.{of.wetness === 'W0' && ' Bone dry it turns at low speed only.'}
      </p>
      {of.kind === 'blanked' ? (
        <p>
          The valve at the pump's flange is shut, so that no oil is taken: two speeds, before the pump is flooded.{' '}
          {BLANKED_CAUTION}
        </p>
      ) : (
        <p>
          Stop at once if the case warms by 10 K or the torque rises by half, and wait ten minutes before the next dry
          run.
          {of.wetness !== 'W2' &&
            ' Once oil has come, this class is gone until the pump is stripped, washed and dried: record blanked starts first.'}
        </p>
      )}
    </div>
  );
}
