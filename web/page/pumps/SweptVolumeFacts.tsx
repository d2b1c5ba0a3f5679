import { sweptVolumeOf } from '../../../analysis/displacement/sweptVolume.ts';
import { printFixed } from '../../../analysis/formatStated.ts';
import type { PumpRecord } from '../../../analysis/records/pumpRecord.ts';
import { sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { BudgetList } from '../words/BudgetList.tsx';
import { StatedValue } from '../words/StatedValue.tsx';

/** What the geometry says of a turn of the shaft, and which measurement to better for a surer answer. */
export function SweptVolumeFacts({ pump }: { readonly pump: PumpRecord }) {
  const swept = sweptVolumeOf(pump.geometry);
  if (!swept.ok) return <p class="look-here">No swept volume: {swept.reason.text}.</p>;
  const { sweptVolume, sources, flowRipple, basis } = swept.value;
  const stated = stateUncertainty(sweptVolume, sourceTable(sources));
  return (
    <div data-testid="swept-volume">
      <p class="lead">
        Swept volume V<sub>g</sub> <StatedValue stated={stated} unitSymbol="cm3/rev" hasUnit={true} />
      </p>
      <p>
        {basis}
        {flowRipple !== null && `; ideal flow ripple ${printFixed(100 * flowRipple, 1)} %, peak to peak`}
      </p>
      <p class="faint">± is the expanded uncertainty for 95 %. Its shares, the largest first:</p>
      <BudgetList stated={stated} />
    </div>
  );
}
