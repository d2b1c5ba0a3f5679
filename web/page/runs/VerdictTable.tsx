import { printedUnit } from '../../../analysis/formatStated.ts';
import type { DemandVerdict } from '../../../analysis/result.ts';
import { Wide } from '../shell/Wide.tsx';
import { demandWords, probabilityWords } from '../words/demandWords.ts';
import { StatedValue } from '../words/StatedValue.tsx';

function VerdictRow({ verdict: row }: { readonly verdict: DemandVerdict }) {
  const { what, limit, unitSymbol } = demandWords(row.demand);
  return (
    <tr>
      <th scope="row">
        {what}
        {row.demand.note !== '' && <span class="reason">{row.demand.note}</span>}
        <span class="reason">{row.reason}</span>
      </th>
      <td data-head="measured" class="number">
        {row.value === null ? '–' : <StatedValue stated={row.value} unitSymbol={unitSymbol} hasUnit={true} />}
      </td>
      <td data-head="asked" class="limit">
        {limit} <span class="unit">{printedUnit(unitSymbol)}</span>
      </td>
      <td data-head="verdict" class="verdict">
        {row.speaks ? row.verdict : 'another run decides'}
      </td>
      <td data-head="probability that it is met" class="number">
        {row.conformityProbability === null ? '–' : probabilityWords(row.conformityProbability)}
      </td>
      <td data-head="origin">{row.demand.origin}</td>
    </tr>
  );
}

/** Each demand of the duty, number by number. */
export function VerdictTable({ verdicts }: { readonly verdicts: readonly DemandVerdict[] }) {
  if (verdicts.length === 0) return <p>Nobody has said what the machine needs of this pump: its record has no duty.</p>;
  return (
    <Wide label="demands and verdicts">
      <table class="stacking" data-testid="verdict-table">
        <caption>
          ± is the expanded uncertainty for 95 %. Pass and fail stand clear of the limit by it; between lies not proven.
        </caption>
        <thead>
          <tr>
            <th scope="col">what is asked</th>
            <th scope="col" class="number">
              measured
            </th>
            <th scope="col">limit</th>
            <th scope="col">verdict</th>
            <th scope="col" class="number">
              probability
              <br />
              that it is met
            </th>
            <th scope="col">origin</th>
          </tr>
        </thead>
        <tbody>
          {verdicts.map((verdict) => (
            <VerdictRow key={verdict.demand.id} verdict={verdict} />
          ))}
        </tbody>
      </table>
    </Wide>
  );
}
