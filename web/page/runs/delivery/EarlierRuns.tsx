import type { RunComparison } from '../../../../analysis/againstTheory/compareRuns.ts';
import { Entry } from '../../shell/Entry.tsx';
import { address } from '../../shell/route.ts';
import { StatedValue } from '../../words/StatedValue.tsx';

/** This run beside the earlier ones of its pump, and what mounting the pump anew adds; nothing where it is the first. */
export function EarlierRuns({ comparison }: { readonly comparison: RunComparison | null }) {
  if (comparison === null || comparison.earlier.length === 0) return null;
  const { earlier, mounting } = comparison;
  return (
    <Entry head="Against earlier runs">
      <table class="stacking" data-testid="earlier-runs">
        <caption>Now less then, ± for 95 %; what both runs share has cancelled.</caption>
        <thead>
          <tr>
            <th scope="col">run</th>
            <th scope="col">
              V<sub>i</sub>
            </th>
            <th scope="col">slip at the duty</th>
          </tr>
        </thead>
        <tbody>
          {earlier.map(({ runId, label, derivedCapacityM3PerRev: capacity, slipAtDutyM3PerS: slip }) => (
            <tr key={runId}>
              <th scope="row">
                <a href={address.run(runId)}>{label}</a>
              </th>
              <td class={capacity.agrees ? 'number' : 'number look-here'}>
                <StatedValue stated={capacity.difference} unitSymbol="cm3/rev" hasUnit={true} />
              </td>
              <td class={slip === null || slip.agrees ? 'number' : 'number look-here'}>
                {slip === null ? '–' : <StatedValue stated={slip.difference} unitSymbol="l/min" hasUnit={true} />}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>{mounting.text}</p>
      {mounting.derivedCapacityM3PerRev !== null && (
        <p>
          V<sub>i</sub> with mounting in its budget:{' '}
          <StatedValue stated={mounting.derivedCapacityM3PerRev} unitSymbol="cm3/rev" hasUnit={true} />
        </p>
      )}
    </Entry>
  );
}
