import { useMemo, useState } from 'preact/hooks';
import { printedUnit, printFixed } from '../../../../analysis/formatStated.ts';
import type { OperatingPoint } from '../../../../analysis/records/dutyRecord.ts';
import type { DeliveryResult, Fitted, SlipLaw } from '../../../../analysis/result.ts';
import { differenceFrom, readingFrom, unitOf } from '../../../../analysis/units.ts';
import type { RunView } from '../../../api.ts';
import { MapChart } from '../../plots/MapChart.tsx';
import type { Point } from '../../plots/shapes.ts';
import { MapForm, PLAIN_VISCOSITY_INDEX } from './MapForm.tsx';
import { type MapCell, MapReading } from './MapReading.tsx';
import { bar, contoursOf, hatchedOf, type MapSheetName, mapTable, nearestStep, rpm } from './mapDrawing.ts';
import { type AnyMap, mapForWish } from './mapForWish.ts';
import type { MapWish } from './mapOils.ts';

const SHEETS: readonly (readonly [name: MapSheetName, words: string, index: string])[] = [
  ['derivedEfficiency', 'against the derived capacity', 'i'],
  ['geometricEfficiency', 'against the geometry', 'g'],
];

const BEYOND_WORDS = {
  speed: 'speed',
  pressure: 'pressure',
  temperature: 'oil temperature',
  viscosity: 'viscosity',
} as const;

function OilWords({ map }: { readonly map: AnyMap }) {
  const celsius = printFixed(readingFrom(map.oilTemperatureK, unitOf('degC'), 0), 1);
  const viscosity = printFixed(differenceFrom(map.dynamicViscosityPaS, unitOf('mPa s')), 1);
  return (
    <p data-testid="map-oil">
      {map.oilName} at {celsius} °C: {viscosity} {printedUnit('mPa s')}. Clearances: {map.clearances}.
      {map.beyondEverywhere.length > 0 && (
        <span class="look-here-inline">
          {' '}
          All of this map lies outside what was measured, in{' '}
          {map.beyondEverywhere.map((way) => BEYOND_WORDS[way]).join(' and ')}.
        </span>
      )}
    </p>
  );
}

function Drawn(props: {
  readonly map: AnyMap;
  readonly sheet: MapSheetName;
  readonly result: DeliveryResult;
  readonly duty: OperatingPoint | null;
}) {
  const { map, sheet, result, duty } = props;
  const speeds = map.speedsRevPerS;
  const pressures = map.differentialPressuresPa;
  const [cell, setCell] = useState<MapCell>({
    speedStep: duty === null ? speeds.length >> 1 : nearestStep(speeds, duty.speedRevPerS),
    pressureStep: duty === null ? pressures.length >> 1 : nearestStep(pressures, duty.differentialPressurePa),
  });
  const drawn = useMemo(() => ({ contours: contoursOf(map, sheet), hatched: hatchedOf(map) }), [map, sheet]);
  const xRange = [rpm(speeds[0] ?? 0), rpm(speeds.at(-1) ?? 1)] as const;
  const yRange = [bar(pressures[0] ?? 0), bar(pressures.at(-1) ?? 1)] as const;
  const points = result.holds
    .map((hold) => ({
      at: [rpm(hold.speedRevPerS.value), bar(hold.differentialPressurePa.value)] as const,
      isOpen: hold.leftOut !== null,
    }))
    // A hold that was left out may lie beyond the edge; one of the fit lies on it, give or take a digit.
    .filter(({ at: [x, y], isOpen }) => !isOpen || (x <= xRange[1] && y <= yRange[1]));
  const marks =
    duty === null ? [] : [{ at: [rpm(duty.speedRevPerS), bar(duty.differentialPressurePa)] as const, words: 'duty' }];
  const choose = ([x, y]: Point): void =>
    setCell({ speedStep: nearestStep(speeds.map(rpm), x), pressureStep: nearestStep(pressures.map(bar), y) });
  return (
    <>
      <MapChart
        title="Volumetric efficiency over speed and pressure"
        description={`Lines of equal volumetric efficiency over speed and pressure difference for ${map.oilName}, holds as dots; the sliders below read any point of it`}
        xLabel="speed [r/min]"
        yLabel="pressure difference [bar]"
        xRange={xRange}
        yRange={yRange}
        {...drawn}
        points={points}
        table={() => mapTable(map, sheet)}
        marks={marks}
        chosen={[rpm(speeds[cell.speedStep] ?? 0), bar(pressures[cell.pressureStep] ?? 0)]}
        onChoose={choose}
      />
      <MapReading map={map} sheet={sheet} cell={cell} onCell={setCell} />
      <p class="chart-note under-map">
        Dots: the holds, open where left out of the fit. Hatched: outside what was measured. ± is the expanded
        uncertainty for 95 %.
      </p>
    </>
  );
}

/** The efficiency map at the oil and temperature that the person names. */
export function MapPassage(props: {
  readonly view: RunView;
  readonly result: DeliveryResult;
  readonly law: SlipLaw;
  readonly fitted: Fitted;
}) {
  const { view, result, law, fitted } = props;
  const duty = view.run.pump.duty?.demands.flatMap((demand) => ('at' in demand ? [demand.at] : []))[0] ?? null;
  const [low, high] = law.range.oilTemperatureK;
  const [wish, setWish] = useState<MapWish>({
    grade: null,
    viscosityIndex: PLAIN_VISCOSITY_INDEX,
    oilTemperatureK: fitted.map.ok ? fitted.map.value.oilTemperatureK : (low + high) / 2,
  });
  const [sheet, setSheet] = useState<MapSheetName>('derivedEfficiency');
  const map = useMemo(() => mapForWish(view, result, law, wish), [view, result, law, wish]);
  return (
    <div data-testid="efficiency-map">
      <MapForm wish={wish} runOilName={view.run.oil.name} onWish={setWish} />
      <fieldset class="choices-in-line">
        <legend class="field-name">efficiency</legend>
        {SHEETS.map(([name, words, index]) => (
          <label key={name} class="choice">
            <input type="radio" name="sheet" checked={sheet === name} onChange={() => setSheet(name)} />
            <span>
              {words}, q/(V<sub>{index}</sub> n)
            </span>
          </label>
        ))}
      </fieldset>
      {map.ok ? (
        <>
          <OilWords map={map.value} />
          <Drawn map={map.value} sheet={sheet} result={result} duty={duty} />
        </>
      ) : (
        <p class="look-here" role="alert">
          No map: {map.reason.text}
        </p>
      )}
    </div>
  );
}
