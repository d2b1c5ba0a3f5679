import type { BalancedVaneRingGeometry } from '../../../analysis/records/geometry/balancedVaneRing.ts';
import type { PlungerGeometry } from '../../../analysis/records/geometry/plunger.ts';
import type { VaneRingGeometry } from '../../../analysis/records/geometry/vaneRing.ts';
import { Fact } from '../runs/Conditions.tsx';
import { figures, MeasuredFact } from './MeasuredFact.tsx';

/** Sliding vanes or plungers as they were measured. */
export function VaneAndPlungerFacts({
  geometry,
}: {
  readonly geometry: VaneRingGeometry | BalancedVaneRingGeometry | PlungerGeometry;
}) {
  if (geometry.kind === 'plunger') {
    return (
      <dl class="facts">
        <Fact name="pistons">{geometry.pistonCount}</Fact>
        <MeasuredFact name="piston diameter" of={geometry.pistonDiameterM} />
        <MeasuredFact name="pitch circle" of={geometry.pitchCircleDiameterM} />
        <MeasuredFact name="swash plate" of={geometry.swashAngleRad} symbol="deg" />
      </dl>
    );
  }
  return (
    <dl class="facts">
      <Fact name="vanes">{geometry.vaneCount}</Fact>
      {geometry.kind === 'vaneRing' ? (
        <>
          <MeasuredFact name="bore of the ring" of={geometry.ringDiameterM} />
          <MeasuredFact name="eccentricity" of={geometry.eccentricityM} />
        </>
      ) : (
        <>
          <MeasuredFact name="major diameter of the cam ring" of={geometry.majorDiameterM} />
          <MeasuredFact name="minor diameter of the cam ring" of={geometry.minorDiameterM} />
          <Fact name="lean of the vanes">{figures(geometry.vaneLeanRad, 'deg')}°</Fact>
        </>
      )}
      <MeasuredFact name="rotor diameter" of={geometry.rotorDiameterM} />
      <MeasuredFact name="ring width" of={geometry.ringWidthM} />
      <MeasuredFact name="vane thickness" of={geometry.vaneThicknessM} />
      <Fact name="spaces under the vanes deliver">{geometry.underVanesDeliver ? 'yes' : 'no'}</Fact>
    </dl>
  );
}
