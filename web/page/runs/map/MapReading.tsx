import { printFixed, printRpm } from '../../../../analysis/formatStated.ts';
import { statedWords } from '../../words/statedWords.ts';
import { bar, type MapSheetName } from './mapDrawing.ts';
import type { AnyMap } from './mapForWish.ts';

/** A cell of the map. */
export type MapCell = { readonly speedStep: number; readonly pressureStep: number };

/** Reads the map at one point, by slider as by pointer. */
export function MapReading(reading: {
  readonly map: AnyMap;
  readonly sheet: MapSheetName;
  readonly cell: MapCell;
  readonly onCell: (cell: MapCell) => void;
}) {
  const { map, sheet, cell, onCell } = reading;
  const index = cell.pressureStep * map.speedsRevPerS.length + cell.speedStep;
  const { values, expandedUncertainties } = map[sheet];
  const speed = `${printRpm(map.speedsRevPerS[cell.speedStep] ?? 0)} r/min`;
  const pressure = `${printFixed(bar(map.differentialPressuresPa[cell.pressureStep] ?? 0), 2)} bar`;
  const efficiency = statedWords(
    { value: values[index] ?? 0, expandedUncertainty: expandedUncertainties[index] ?? 0 },
    '%',
  );
  return (
    <div class="map-reading">
      <label class="field">
        <span>speed</span>
        <input
          type="range"
          min="0"
          max={map.speedsRevPerS.length - 1}
          step="1"
          value={cell.speedStep}
          aria-valuetext={speed}
          onInput={(event) => onCell({ ...cell, speedStep: Number(event.currentTarget.value) })}
        />
      </label>
      <label class="field">
        <span>pressure difference</span>
        <input
          type="range"
          min="0"
          max={map.differentialPressuresPa.length - 1}
          step="1"
          value={cell.pressureStep}
          aria-valuetext={pressure}
          onInput={(event) => onCell({ ...cell, pressureStep: Number(event.currentTarget.value) })}
        />
      </label>
      <p aria-live="polite" data-testid="map-reading">
        At {speed} and {pressure}: <strong>{efficiency}</strong>
        {map.isExtrapolated[index] === true && ', outside what was measured'}
      </p>
    </div>
  );
}
