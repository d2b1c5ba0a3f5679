import type { PumpGeometry } from '../../../analysis/records/pumpRecord.ts';
import { Fact } from '../runs/Conditions.tsx';
import { GearFacts } from './GearFacts.tsx';
import { HandTurnFacts } from './HandTurnFacts.tsx';
import { MeasuredFact } from './MeasuredFact.tsx';
import { ScrewFacts } from './ScrewFacts.tsx';
import { VaneAndPlungerFacts } from './VaneAndPlungerFacts.tsx';

function FactsOf({ geometry }: { readonly geometry: PumpGeometry }) {
  switch (geometry.kind) {
    case 'externalGear':
    case 'internalGear':
    case 'trochoid':
    case 'lobe':
      return <GearFacts geometry={geometry} />;
    case 'vaneRing':
    case 'balancedVaneRing':
    case 'plunger':
      return <VaneAndPlungerFacts geometry={geometry} />;
    case 'twinScrew':
    case 'threeScrew':
    case 'progressingCavity':
    case 'plainThread':
      return <ScrewFacts geometry={geometry} />;
    case 'turnedByHand':
      return <HandTurnFacts geometry={geometry} />;
    case 'asStated':
      return (
        <dl class="facts">
          <MeasuredFact name="swept volume, as stated" of={geometry.sweptVolumeM3PerRev} symbol="cm3/rev" />
          <Fact name="stated by">{geometry.statedBy}</Fact>
        </dl>
      );
  }
}

/** The geometry as it was measured or stated. */
export function GeometryFacts({ geometry }: { readonly geometry: PumpGeometry }) {
  return (
    <>
      <FactsOf geometry={geometry} />
      <p class="faint">u is a standard uncertainty.</p>
    </>
  );
}
