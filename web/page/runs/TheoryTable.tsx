import { printFixed } from '../../../analysis/formatStated.ts';
import type { DeliveryResult, Theory } from '../../../analysis/result.ts';
import { differenceFrom, unitOf } from '../../../analysis/units.ts';
import { BudgetList } from '../words/BudgetList.tsx';
import { StatedValue } from '../words/StatedValue.tsx';

/** What the pump displaces, as measured and as its geometry says. */
export function TheoryTable({ theory, result }: { readonly theory: Theory; readonly result: DeliveryResult }) {
  const law = result.law.ok ? result.law.value : null;
  return (
    <>
      <table class="stacking" data-testid="theory-table">
        <caption>± is the expanded uncertainty for 95 %.</caption>
        <tbody>
          {law !== null && (
            <tr>
              <th scope="row">
                derived capacity V<sub>i</sub>, from {law.holdCount} holds
              </th>
              <td class="number">
                <StatedValue stated={law.stated.derivedCapacityM3PerRev} unitSymbol="cm3/rev" hasUnit={true} />
              </td>
            </tr>
          )}
          <tr>
            <th scope="row">
              swept volume V<sub>g</sub>, {theory.basis}
            </th>
            <td class="number">
              <StatedValue stated={theory.sweptVolumeM3PerRev} unitSymbol="cm3/rev" hasUnit={true} />
            </td>
          </tr>
          {result.capacityRatio !== null && (
            <tr>
              <th scope="row">
                ratio V<sub>i</sub>/V<sub>g</sub>
              </th>
              <td class="number">
                <StatedValue stated={result.capacityRatio} unitSymbol="%" hasUnit={true} />
              </td>
            </tr>
          )}
          {theory.flowRipple !== null && (
            <tr>
              <th scope="row">ideal flow ripple, peak to peak</th>
              <td class="number">
                {printFixed(differenceFrom(theory.flowRipple, unitOf('%')), 1)} <span class="unit">%</span>
              </td>
            </tr>
          )}
        </tbody>
      </table>
      {law !== null && (
        <>
          <p class="faint">
            Where the uncertainty of V<sub>i</sub> comes from:
          </p>
          <BudgetList stated={law.stated.derivedCapacityM3PerRev} />
        </>
      )}
      {law !== null && (
        <p class="faint">
          Fit of the law: reduced χ² {printFixed(law.reducedChiSquare, 2)} with {law.residualDegreesOfFreedom} degrees
          of freedom; about 1 when the law tells all that the holds know.
        </p>
      )}
    </>
  );
}
