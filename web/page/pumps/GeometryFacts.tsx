import { printedUnit } from '../../../analysis/formatStated.ts';
import type { Measured } from '../../../analysis/records/fields.ts';
import type { PumpGeometry } from '../../../analysis/records/pumpRecord.ts';
import { differenceFrom, unitOf } from '../../../analysis/units.ts';
import { Fact } from '../runs/Conditions.tsx';

/** As many figures as the record holds, without the tail of binary fractions. */
function figures(si: number, symbol: string): string {
  return String(Number(differenceFrom(si, unitOf(symbol)).toPrecision(9)));
}

function MeasuredFact({ name, of, symbol }: { readonly name: string; readonly of: Measured; readonly symbol: string }) {
  return (
    <Fact name={name}>
      {figures(of.value, symbol)} <span class="unit">{printedUnit(symbol)}</span>{' '}
      <span class="uncertainty">u {figures(of.standardUncertainty, symbol)}</span>
    </Fact>
  );
}

/** The geometry as it was measured or stated. */
export function GeometryFacts({ geometry }: { readonly geometry: PumpGeometry }) {
  if (geometry.kind === 'asStated') {
    return (
      <dl class="facts">
        <MeasuredFact name="swept volume, as stated" of={geometry.sweptVolumeM3PerRev} symbol="cm3/rev" />
        <Fact name="stated by">{geometry.statedBy}</Fact>
      </dl>
    );
  }
  return (
    <>
      <dl class="facts">
        <Fact name="teeth, driver and driven">
          {geometry.toothCount.driver} and {geometry.toothCount.driven}
        </Fact>
        <Fact name="module">{figures(geometry.moduleM, 'mm')} mm</Fact>
        <Fact name="pressure angle">{figures(geometry.pressureAngleRad, 'deg')}°</Fact>
        <MeasuredFact name="tip diameter" of={geometry.tipDiameterM} symbol="mm" />
        <MeasuredFact name="running centre distance" of={geometry.runningCentreDistanceM} symbol="mm" />
        <MeasuredFact name="face width" of={geometry.faceWidthM} symbol="mm" />
        <MeasuredFact name="backlash" of={geometry.backlashM} symbol="mm" />
        <MeasuredFact name="tip clearance" of={geometry.tipClearanceM} symbol="mm" />
        <MeasuredFact name="end float" of={geometry.endFloatM} symbol="mm" />
        <Fact name="relief grooves">{geometry.hasReliefGrooves ? 'yes' : 'no'}</Fact>
      </dl>
      <p class="faint">u is a standard uncertainty.</p>
    </>
  );
}
