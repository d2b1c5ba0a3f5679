import { againstEarlier } from '../../../../analysis/againstTheory/againstEarlier.ts';
import type { Agreement } from '../../../../analysis/againstTheory/agreement.ts';
import { pumpRunOf } from '../../../../analysis/againstTheory/pumpRunOf.ts';
import type { RunView } from '../../../api.ts';
import { StatedValue } from '../../words/StatedValue.tsx';

function Row({
  what,
  unit,
  agreement,
}: {
  readonly what: string;
  readonly unit: string;
  readonly agreement: Agreement;
}) {
  return (
    <tr>
      <th scope="row">{what}</th>
      <td class="number" data-head="this run">
        <StatedValue stated={agreement.measured} unitSymbol={unit} hasUnit={true} />
      </td>
      <td class="number" data-head="the first">
        <StatedValue stated={agreement.expected} unitSymbol={unit} hasUnit={true} />
      </td>
      <td class={agreement.agrees ? 'number' : 'number look-here'} data-head="this less the first">
        <StatedValue stated={agreement.difference} unitSymbol={unit} hasUnit={true} />
      </td>
      <td data-head="means">{agreement.agrees ? 'nothing: within its uncertainty' : 'a difference'}</td>
    </tr>
  );
}

/** Each run less the first one, with what both share cancelled. */
export function Differences({ views }: { readonly views: readonly RunView[] }) {
  const [first, ...others] = views;
  const reference = first === undefined ? null : pumpRunOf(first.run, first.result);
  if (reference === null) return <p>The first run has no slip law: there is nothing to hold the others against.</p>;
  return (
    <>
      {others.map(({ run, result }) => {
        const pumpRun = pumpRunOf(run, result);
        const [against] = pumpRun === null ? [] : againstEarlier(pumpRun, [reference]);
        if (against === undefined) return <p key={run.id}>Run {run.id} has no slip law.</p>;
        return (
          <table key={run.id} class="stacking" data-testid="differences">
            <caption>Run {run.id} against the first. ± is for 95 %; what both runs share has cancelled.</caption>
            <thead>
              <tr>
                <th scope="col">quantity</th>
                <th scope="col">this run</th>
                <th scope="col">the first</th>
                <th scope="col">this less the first</th>
                <th scope="col">means</th>
              </tr>
            </thead>
            <tbody>
              <Row what="derived capacity" unit="cm3/rev" agreement={against.derivedCapacityM3PerRev} />
              {against.slipAtDutyM3PerS !== null && (
                <Row what="slip at the duty" unit="l/min" agreement={against.slipAtDutyM3PerS} />
              )}
            </tbody>
          </table>
        );
      })}
    </>
  );
}
