import { useState } from 'preact/hooks';
import { printFixed } from '../../../../analysis/formatStated.ts';
import { readingFrom, siFrom, unitOf } from '../../../../analysis/units.ts';
import { MAP_GRADES, type MapWish } from './mapOils.ts';

const CELSIUS = unitOf('degC');

/** Of a plain mineral oil; common practice, no source [1]. */
export const PLAIN_VISCOSITY_INDEX = 95;

function numberIn(form: FormData, name: string, otherwise: number): number {
  const typed = form.get(name);
  return typeof typed === 'string' && typed !== '' ? Number(typed) : otherwise;
}

/** Names the oil and its temperature for the map. */
export function MapForm(props: {
  readonly wish: MapWish;
  readonly runOilName: string;
  readonly onWish: (wish: MapWish) => void;
}) {
  const { wish, runOilName, onWish } = props;
  const [isGrade, setGrade] = useState(wish.grade !== null);
  const draw = (event: SubmitEvent): void => {
    event.preventDefault();
    if (!(event.currentTarget instanceof HTMLFormElement)) return;
    const form = new FormData(event.currentTarget);
    const grade = numberIn(form, 'grade', 0);
    onWish({
      grade: grade === 0 ? null : grade,
      viscosityIndex: numberIn(form, 'index', PLAIN_VISCOSITY_INDEX),
      oilTemperatureK: siFrom(numberIn(form, 'temperature', Number.NaN), CELSIUS, 0),
    });
  };
  return (
    <form class="map-form" onSubmit={draw} data-testid="map-form">
      <label class="field">
        <span>oil</span>
        <select name="grade" onChange={(event) => setGrade(event.currentTarget.value !== '')}>
          <option value="" selected={wish.grade === null}>
            as in the run: {runOilName}
          </option>
          {MAP_GRADES.map((grade) => (
            <option key={grade} value={grade} selected={wish.grade === grade}>
              ISO VG {grade}
            </option>
          ))}
        </select>
      </label>
      {isGrade && (
        <label class="field">
          <span>its viscosity index</span>
          <input
            type="number"
            name="index"
            step="1"
            min="0"
            max="250"
            defaultValue={String(wish.viscosityIndex)}
            required
          />
        </label>
      )}
      <label class="field">
        <span>oil at the inlet</span>
        <span class="with-unit">
          <input
            type="number"
            name="temperature"
            step="any"
            inputMode="decimal"
            defaultValue={String(Number(printFixed(readingFrom(wish.oilTemperatureK, CELSIUS, 0), 1)))}
            required
          />
          <span>°C</span>
        </span>
      </label>
      <button type="submit">Draw the map</button>
    </form>
  );
}
