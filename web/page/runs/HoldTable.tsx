import type { ComponentChildren } from 'preact';
import { printFixed } from '../../../analysis/formatStated.ts';
import type { HoldResult } from '../../../analysis/result.ts';
import { differenceFrom, unitOf } from '../../../analysis/units.ts';
import { Wide } from '../shell/Wide.tsx';
import { StatedValue } from '../words/StatedValue.tsx';

const HEADS: readonly (readonly [name: ComponentChildren, unit: string])[] = [
  ['from', 's'],
  ['to', 's'],
  ['speed', 'r/min'],
  ['suction', 'bar(a)'],
  ['difference', 'bar'],
  ['flow', 'l/min'],
  ['oil', '°C'],
  ['viscosity', 'mPa s'],
  [
    <>
      q/(V<sub>i</sub> n)
    </>,
    '%',
  ],
  [
    <>
      q/(V<sub>g</sub> n)
    </>,
    '%',
  ],
  ['off the law', 'l/min'],
];

function HoldRow({ hold }: { readonly hold: HoldResult }) {
  const { residualFlowM3PerS: residual } = hold;
  return (
    <tr>
      <th scope="row" class="number">
        {hold.number}
      </th>
      <td class="number">{printFixed(hold.startS, 1)}</td>
      <td class="number">{printFixed(hold.endS, 1)}</td>
      <td class="number">
        <StatedValue stated={hold.speedRevPerS} unitSymbol="r/min" />
      </td>
      <td class="number">
        <StatedValue stated={hold.suctionPressurePa} unitSymbol="bar(a)" />
      </td>
      <td class="number">
        <StatedValue stated={hold.differentialPressurePa} unitSymbol="bar(a)" />
      </td>
      <td class="number">
        <StatedValue stated={hold.flowM3PerS} unitSymbol="l/min" />
      </td>
      <td class="number">
        <StatedValue stated={hold.oilTemperatureK} unitSymbol="degC" />
      </td>
      <td class="number">{printFixed(differenceFrom(hold.dynamicViscosityPaS, unitOf('mPa s')), 1)}</td>
      <td class="number">
        {hold.derivedEfficiency === null ? '–' : <StatedValue stated={hold.derivedEfficiency} unitSymbol="%" />}
      </td>
      <td class="number">
        <StatedValue stated={hold.geometricEfficiency} unitSymbol="%" />
      </td>
      <td class="number">{residual === null ? '–' : printFixed(differenceFrom(residual, unitOf('l/min')), 3)}</td>
    </tr>
  );
}

/** Every hold with all that was averaged in it. */
export function HoldTable({ holds }: { readonly holds: readonly HoldResult[] }) {
  if (holds.length === 0) return <p>No hold: nothing stood still long enough to be averaged.</p>;
  return (
    <Wide label="table of holds">
      <table data-testid="hold-table">
        <caption>± is the expanded uncertainty for 95 %; suction pressure is absolute.</caption>
        <thead>
          <tr>
            <th scope="col">hold</th>
            {HEADS.map(([name, unit], index) => (
              <th key={index} scope="col" class="number">
                {name}
                <br />
                {unit}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {holds.map((hold) => (
            <HoldRow key={hold.number} hold={hold} />
          ))}
        </tbody>
      </table>
    </Wide>
  );
}
