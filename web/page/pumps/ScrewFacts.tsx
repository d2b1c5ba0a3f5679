import type { PlainThreadGeometry } from '../../../analysis/records/geometry/plainThread.ts';
import type { ProgressingCavityGeometry } from '../../../analysis/records/geometry/progressingCavity.ts';
import type { ThreeScrewGeometry } from '../../../analysis/records/geometry/threeScrew.ts';
import type { TwinScrewGeometry } from '../../../analysis/records/geometry/twinScrew.ts';
import { Fact } from '../runs/Conditions.tsx';
import { MeasuredFact } from './MeasuredFact.tsx';

type ScrewGeometry = TwinScrewGeometry | ThreeScrewGeometry | ProgressingCavityGeometry | PlainThreadGeometry;

/** Screws as they were measured. */
export function ScrewFacts({ geometry }: { readonly geometry: ScrewGeometry }) {
  switch (geometry.kind) {
    case 'twinScrew':
      return (
        <dl class="facts">
          <Fact name="starts of a screw">{geometry.startCount}</Fact>
          <MeasuredFact name="outer diameter" of={geometry.outerDiameterM} />
          <MeasuredFact name="root diameter" of={geometry.rootDiameterM} />
          <MeasuredFact name="running centre distance" of={geometry.runningCentreDistanceM} />
          <MeasuredFact name="lead" of={geometry.leadM} />
        </dl>
      );
    case 'threeScrew':
      return (
        <dl class="facts">
          <MeasuredFact name="diameter, power screw" of={geometry.powerDiameterM} />
          <MeasuredFact name="diameter, idlers" of={geometry.idlerDiameterM} />
          <MeasuredFact name="lead" of={geometry.leadM} />
        </dl>
      );
    case 'progressingCavity':
      return (
        <dl class="facts">
          <MeasuredFact name="eccentricity" of={geometry.eccentricityM} />
          <MeasuredFact name="diameter, rotor section" of={geometry.rotorDiameterM} />
          <MeasuredFact name="stator pitch" of={geometry.statorPitchM} />
        </dl>
      );
    case 'plainThread':
      return (
        <dl class="facts">
          <Fact name="starts">{geometry.startCount}</Fact>
          <MeasuredFact name="bore" of={geometry.boreDiameterM} />
          <MeasuredFact name="groove depth" of={geometry.grooveDepthM} />
          <MeasuredFact name="groove width, along the axis" of={geometry.grooveWidthM} />
          <MeasuredFact name="lead" of={geometry.leadM} />
        </dl>
      );
  }
}
