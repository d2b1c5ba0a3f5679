import { printFixed } from '../../../../analysis/formatStated.ts';
import type { Fitted, SlipLaw } from '../../../../analysis/result.ts';
import { differenceFrom, unitOf } from '../../../../analysis/units.ts';
import { StatedValue } from '../../words/StatedValue.tsx';

/** Derived capacity by two straight lines beside the law's. */
export function TwoStep({ twoStep, law }: { readonly twoStep: Fitted['twoStep']; readonly law: SlipLaw }) {
  if (!twoStep.ok) {
    return (
      <p data-testid="two-step">
        V<sub>i</sub> by two straight lines, in the manner of ISO 8426: {twoStep.reason.text}
      </p>
    );
  }
  const { derivedCapacityM3PerRev, differenceM3PerRev, levels, unusedHoldNumbers } = twoStep.value;
  return (
    <>
      <table class="stacking" data-testid="two-step">
        <caption>
          Derived capacity by two ways. Two straight lines, in the manner of ISO 8426: flow against speed at each
          pressure, then its slope to zero pressure.
        </caption>
        <tbody>
          <tr>
            <th scope="row">by the slip law</th>
            <td class="number">
              <StatedValue stated={law.stated.derivedCapacityM3PerRev} unitSymbol="cm3/rev" hasUnit={true} />
            </td>
          </tr>
          <tr>
            <th scope="row">by two straight lines</th>
            <td class="number">
              <StatedValue stated={derivedCapacityM3PerRev} unitSymbol="cm3/rev" hasUnit={true} />
            </td>
          </tr>
          <tr>
            <th scope="row">difference; what both share has cancelled</th>
            <td class="number">
              <StatedValue stated={differenceM3PerRev} unitSymbol="cm3/rev" hasUnit={true} />
            </td>
          </tr>
        </tbody>
      </table>
      <details>
        <summary>The {levels.length} pressures of the second way</summary>
        <table>
          <thead>
            <tr>
              <th scope="col" class="number">
                difference
                <br />
                bar
              </th>
              <th scope="col" class="number">
                slope
                <br />
                cm³/rev
              </th>
              <th scope="col">holds</th>
            </tr>
          </thead>
          <tbody>
            {levels.map(({ differentialPressurePa, slopeM3PerRev, holdNumbers }) => (
              <tr key={differentialPressurePa}>
                <th scope="row" class="number">
                  {printFixed(differenceFrom(differentialPressurePa, unitOf('bar(a)')), 2)}
                </th>
                <td class="number">
                  <StatedValue stated={slopeM3PerRev} unitSymbol="cm3/rev" />
                </td>
                <td>{holdNumbers.join(', ')}</td>
              </tr>
            ))}
          </tbody>
        </table>
        {unusedHoldNumbers.length > 0 && <p>Not at one of these pressures: hold {unusedHoldNumbers.join(', ')}.</p>}
      </details>
    </>
  );
}
