import { calliperEstimate, calliperExcess } from '../../../analysis/displacement/calliperEstimate.ts';
import { externalGearMesh } from '../../../analysis/displacement/externalGear.ts';
import type { ExternalGearGeometry } from '../../../analysis/records/geometry/externalGear.ts';
import type { InternalGearGeometry } from '../../../analysis/records/geometry/internalGear.ts';
import type { LobeGeometry } from '../../../analysis/records/geometry/lobe.ts';
import type { TrochoidGeometry } from '../../../analysis/records/geometry/trochoid.ts';
import { Fact } from '../runs/Conditions.tsx';
import { figures, MeasuredFact } from './MeasuredFact.tsx';

type GearGeometry = ExternalGearGeometry | InternalGearGeometry | TrochoidGeometry | LobeGeometry;

/** The calliper short form beside the formula, for two gears that share one tip diameter. */
function CalliperFact({ geometry }: { readonly geometry: ExternalGearGeometry }) {
  const mesh = externalGearMesh(geometry);
  if (!mesh.ok || geometry.drivenTipDiameterM !== undefined) return null;
  const { tipDiameterM, runningCentreDistanceM, faceWidthM } = geometry;
  const estimate = calliperEstimate(tipDiameterM.value, runningCentreDistanceM.value, faceWidthM.value);
  return (
    <Fact name="calliper short form, for plausibility only">
      {figures(Number(estimate.toPrecision(4)), 'cm3/rev')} <span class="unit">cm³/rev</span>, which is{' '}
      {(100 * calliperExcess(mesh.value)).toFixed(1)} % too high
    </Fact>
  );
}

function ExternalGearFacts({ geometry }: { readonly geometry: ExternalGearGeometry }) {
  const { drivenTipDiameterM } = geometry;
  return (
    <dl class="facts">
      <Fact name="teeth, driver and driven">
        {geometry.toothCount.driver} and {geometry.toothCount.driven}
      </Fact>
      <Fact name="module">{figures(geometry.moduleM, 'mm')} mm</Fact>
      <Fact name="pressure angle">{figures(geometry.pressureAngleRad, 'deg')}°</Fact>
      <MeasuredFact
        name={drivenTipDiameterM === undefined ? 'tip diameter' : 'tip diameter, driver'}
        of={geometry.tipDiameterM}
      />
      {drivenTipDiameterM === undefined ? null : <MeasuredFact name="tip diameter, driven" of={drivenTipDiameterM} />}
      <MeasuredFact name="running centre distance" of={geometry.runningCentreDistanceM} />
      <MeasuredFact name="face width" of={geometry.faceWidthM} />
      <MeasuredFact name="backlash" of={geometry.backlashM} />
      <MeasuredFact name="tip clearance" of={geometry.tipClearanceM} />
      <MeasuredFact name="end float" of={geometry.endFloatM} />
      <Fact name="relief grooves">{geometry.hasReliefGrooves ? 'yes' : 'no'}</Fact>
      <CalliperFact geometry={geometry} />
    </dl>
  );
}

function InternalGearFacts({ geometry }: { readonly geometry: InternalGearGeometry }) {
  return (
    <dl class="facts">
      <Fact name="teeth, pinion and ring">
        {geometry.toothCount.pinion} and {geometry.toothCount.ring}
      </Fact>
      <Fact name="module">{figures(geometry.moduleM, 'mm')} mm</Fact>
      <Fact name="pressure angle">{figures(geometry.pressureAngleRad, 'deg')}°</Fact>
      <MeasuredFact name="tip diameter, pinion" of={geometry.pinionTipDiameterM} />
      <MeasuredFact name="tip diameter, ring" of={geometry.ringTipDiameterM} />
      <MeasuredFact name="running centre distance" of={geometry.runningCentreDistanceM} />
      <MeasuredFact name="face width" of={geometry.faceWidthM} />
      <MeasuredFact name="backlash" of={geometry.backlashM} />
      <Fact name="relief grooves">{geometry.hasReliefGrooves ? 'yes' : 'no'}</Fact>
    </dl>
  );
}

/** Gears and rotors as they were measured. */
export function GearFacts({ geometry }: { readonly geometry: GearGeometry }) {
  switch (geometry.kind) {
    case 'externalGear':
      return <ExternalGearFacts geometry={geometry} />;
    case 'internalGear':
      return <InternalGearFacts geometry={geometry} />;
    case 'trochoid':
      return (
        <dl class="facts">
          <Fact name="teeth of the inner rotor">{geometry.innerToothCount}</Fact>
          <Fact name="lobes of the outer rotor">{geometry.innerToothCount + 1}</Fact>
          <MeasuredFact name="circle through the lobes" of={geometry.lobeTopCircleDiameterM} />
          <MeasuredFact name="radius of a lobe" of={geometry.lobeRadiusM} />
          <MeasuredFact name="eccentricity" of={geometry.eccentricityM} />
          <MeasuredFact name="width" of={geometry.widthM} />
        </dl>
      );
    case 'lobe':
      return (
        <dl class="facts">
          <Fact name="lobes of a rotor">{geometry.lobeCount}</Fact>
          <MeasuredFact name="tip diameter" of={geometry.tipDiameterM} />
          <MeasuredFact name="centre distance" of={geometry.centreDistanceM} />
          <MeasuredFact name="width" of={geometry.widthM} />
        </dl>
      );
  }
}
