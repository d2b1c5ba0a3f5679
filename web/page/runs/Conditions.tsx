import type { ComponentChildren } from 'preact';
import { printedUnit, printFixed } from '../../../analysis/formatStated.ts';
import { differenceFrom, readingFrom, unitOf } from '../../../analysis/units.ts';
import type { RunView } from '../../api.ts';

export function Fact({ name, children }: { readonly name: string; readonly children: ComponentChildren }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

function inUnit(si: number, symbol: string, decimals: number): string {
  return `${printFixed(readingFrom(si, unitOf(symbol), 0), decimals)} ${printedUnit(symbol)}`;
}

/** What was true before the first byte, and what the line brought. */
export function Conditions({ view }: { readonly view: RunView }) {
  const { run, closing, result } = view;
  const { setUp, oil, bench } = run;
  const { census } = result;
  const barometerU = printFixed(differenceFrom(setUp.barometerPa.standardUncertainty, unitOf('mbar(a)')), 1);
  const liftU = printFixed(setUp.staticLiftM.standardUncertainty, 3);
  return (
    <>
      <dl class="facts">
        <Fact name="barometer">
          {inUnit(setUp.barometerPa.value, 'mbar(a)', 1).replace('(a)', '')}{' '}
          <span class="uncertainty">u {barometerU}</span>
        </Fact>
        <Fact name="static lift">
          {printFixed(setUp.staticLiftM.value, 3)} m <span class="uncertainty">u {liftU}</span>
        </Fact>
        <Fact name="suction pipe">
          bore {inUnit(setUp.suctionPipeBoreM, 'mm', 1)}, length {printFixed(setUp.suctionPipeLengthM, 2)} m
        </Fact>
        <Fact name="gas volume, pipe end to gears">{inUnit(setUp.deadVolumeM3, 'cm3', 0)}</Fact>
        <Fact name="volume, pump outlet to flow meter">
          {inUnit(setUp.deliveryLineVolumeM3.value, 'cm3', 0)}{' '}
          <span class="uncertainty">
            u {printFixed(differenceFrom(setUp.deliveryLineVolumeM3.standardUncertainty, unitOf('cm3')), 0)}
          </span>
        </Fact>
        <Fact name="wetness class">{setUp.wetness}</Fact>
        <Fact name="oil">
          {oil.name}, viscosity {oil.viscosityBasis === 'measured' ? 'measured' : 'from the grade'}:{' '}
          {inUnit(oil.lower.kinematicViscosityM2PerS, 'mm2/s', 1)} at {inUnit(oil.lower.temperatureK, 'degC', 0)},{' '}
          {inUnit(oil.upper.kinematicViscosityM2PerS, 'mm2/s', 1)} at {inUnit(oil.upper.temperatureK, 'degC', 0)}
        </Fact>
        <Fact name="bench">
          {bench.name}, {bench.workshop}
        </Fact>
        <Fact name="line">
          {census.lineCount} lines, {census.readingCount} readings, {census.noteCount} notes, {census.lostReadingCount}{' '}
          lost
        </Fact>
        <Fact name="journal, SHA-256">
          <span style={{ overflowWrap: 'anywhere' }}>{closing.sha256.journal}</span>
        </Fact>
      </dl>
      <p class="faint">Run {run.id}; u is a standard uncertainty.</p>
    </>
  );
}
