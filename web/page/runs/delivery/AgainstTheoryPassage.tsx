import type { ComponentChildren } from 'preact';
import { printFixed } from '../../../../analysis/formatStated.ts';
import type { AgainstTheory, SlipLaw, Theory } from '../../../../analysis/result.ts';
import type { Stated } from '../../../../analysis/uncertainty/stated.ts';
import { differenceFrom, unitOf } from '../../../../analysis/units.ts';
import type { RunView } from '../../../api.ts';
import { Chart } from '../../plots/Chart.tsx';
import { Entry } from '../../shell/Entry.tsx';
import { StatedValue } from '../../words/StatedValue.tsx';
import { EquivalentClearances } from './EquivalentClearances.tsx';
import { SlipByGap } from './SlipByGap.tsx';
import { slipSeries } from './slipSeries.ts';

function Row(row: { readonly head: ComponentChildren; readonly stated: Stated; readonly unitSymbol: string }) {
  return (
    <tr>
      <th scope="row">{row.head}</th>
      <td class="number">
        <StatedValue stated={row.stated} unitSymbol={row.unitSymbol} hasUnit={true} />
      </td>
    </tr>
  );
}

function CapacityTable({ theory, against }: { readonly theory: Theory; readonly against: AgainstTheory | null }) {
  const capacity = against?.capacity ?? null;
  return (
    <table class="stacking" data-testid="theory-table">
      <caption>± is the expanded uncertainty for 95 %.</caption>
      <tbody>
        <Row
          head={
            <>
              swept volume V<sub>g</sub>, {theory.basis}
            </>
          }
          stated={theory.sweptVolumeM3PerRev}
          unitSymbol="cm3/rev"
        />
        {capacity !== null && capacity.predictedDrag !== null && (
          <Row
            head="drag per turn, predicted from the strip sheet"
            stated={capacity.predictedDrag}
            unitSymbol="cm3/rev"
          />
        )}
        {capacity !== null && (
          <>
            <Row
              head={
                <>
                  derived capacity V<sub>i</sub>, measured
                </>
              }
              stated={capacity.measured}
              unitSymbol="cm3/rev"
            />
            <Row head="measured less theory" stated={capacity.difference} unitSymbol="cm3/rev" />
          </>
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
  );
}

function SlipAgainst({ view, slip }: { readonly view: RunView; readonly slip: AgainstTheory['slip'] }) {
  if (!slip.ok) return <p>{slip.reason.text}</p>;
  const { holds, withoutPressure } = slip.value;
  const apart = holds.filter(({ agrees }) => !agrees).map(({ holdNumber }) => holdNumber);
  return (
    <>
      <Chart
        title="Slip, hold by hold"
        description={`Measured slip beside the slip predicted from the strip sheet for ${holds.length} holds, with bars of expanded uncertainty`}
        xLabel="hold"
        yLabel="slip [l/min]"
        series={slipSeries(holds)}
        xRange={[0, holds.reduce((last, { holdNumber }) => Math.max(last, holdNumber), 0) + 1]}
        note={
          <>
            Measured: V<sub>i</sub> n − q<sub>1</sub>. Bars: expanded uncertainty for 95 %, where it is larger than the
            mark.
          </>
        }
      />
      <SlipByGap view={view} holds={holds} />
      <p class={apart.length > 0 ? 'look-here' : ''} data-testid="slip-against-theory">
        {apart.length === 0
          ? `In all ${holds.length} holds measured and predicted slip agree within their uncertainty.`
          : `Measured and predicted slip do not agree in ${apart.length} of ${holds.length} holds: ${apart.join(', ')}.`}
        {withoutPressure.length > 0 && ` Without a pressure rise: hold ${withoutPressure.join(', ')}.`}
      </p>
    </>
  );
}

/** Measurement beside geometry and strip sheet. */
export function AgainstTheoryPassage(props: {
  readonly view: RunView;
  readonly theory: Theory;
  readonly law: SlipLaw | null;
  readonly against: AgainstTheory | null;
}) {
  const { view, theory, against, law } = props;
  const disagrees = against !== null && !against.capacity.agrees;
  return (
    <Entry head="Against theory">
      <CapacityTable theory={theory} against={against} />
      {against !== null && (
        <>
          <p class={disagrees ? 'look-here' : ''}>{against.capacity.inWords}</p>
          <SlipAgainst view={view} slip={against.slip} />
          {against.equivalentClearances !== null && <EquivalentClearances equivalent={against.equivalentClearances} />}
        </>
      )}
      {law !== null && (
        <p class="faint">
          Fit of the law: reduced χ² {printFixed(law.reducedChiSquare, 2)} with{' '}
          {printFixed(law.residualDegreesOfFreedom, 0)} degrees of freedom; about 1 when the law tells all that the
          holds know.
        </p>
      )}
    </Entry>
  );
}
