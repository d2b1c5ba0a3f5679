import type { TurnedByHandGeometry } from '../../../analysis/records/geometry/turnedByHand.ts';
import { Fact } from '../runs/Conditions.tsx';
import { figures } from './MeasuredFact.tsx';

/** What was caught when the pump was turned by hand. */
export function HandTurnFacts({ geometry }: { readonly geometry: TurnedByHandGeometry }) {
  return (
    <dl class="facts">
      <Fact name="caught, turned by hand">
        {geometry.repeats
          .map(({ volumeM3, turnsRev }) => `${figures(volumeM3, 'cm3')} cm³ in ${turnsRev} turns`)
          .join('; ')}
      </Fact>
      <Fact name="u of the volume">{figures(geometry.volumeStandardUncertaintyM3, 'cm3')} cm³</Fact>
      <Fact name="u of the partial turn">{figures(geometry.partialTurnStandardUncertaintyRev, '1')} turns</Fact>
    </dl>
  );
}
