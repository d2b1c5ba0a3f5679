import type { ComponentChildren } from 'preact';
import { againstEarlier } from '../../../../analysis/againstTheory/againstEarlier.ts';
import type { Agreement } from '../../../../analysis/againstTheory/agreement.ts';
import { pumpRunOf } from '../../../../analysis/againstTheory/pumpRunOf.ts';
import { isPointDemand } from '../../../../analysis/efficiency/dutyOutlook.ts';
import type { RunView } from '../../../api.ts';
import { BudgetList } from '../../words/BudgetList.tsx';
import { StatedValue } from '../../words/StatedValue.tsx';
import type { ComparedRun } from './comparedRuns.ts';

type RowProps = {
  readonly what: ComponentChildren;
  readonly unit: string;
  readonly agreement: Agreement;
  readonly letters: readonly [now: string, first: string];
};

function Row({ what, unit, agreement, letters: [now, first] }: RowProps) {
  return (
    <tr>
      <th scope="row">{what}</th>
      <td class="number" data-head={now}>
        <StatedValue stated={agreement.measured} unitSymbol={unit} hasUnit={true} />
      </td>
      <td class="number" data-head={first}>
        <StatedValue stated={agreement.expected} unitSymbol={unit} hasUnit={true} />
      </td>
      <td class="number" data-head={`${now} less ${first}`}>
        <StatedValue stated={agreement.difference} unitSymbol={unit} hasUnit={true} />
      </td>
      <td data-head="it means" class={agreement.agrees ? '' : 'verdict'}>
        {agreement.agrees ? 'nothing: within its uncertainty' : 'they differ'}
      </td>
    </tr>
  );
}

/** The first operating point that a pump's duty names; slip at it is compared only where both ask for the same. */
function dutyOf({ run }: RunView): string | null {
  const demand = run.pump.duty?.demands.find(isPointDemand);
  return demand === undefined ? null : JSON.stringify(demand.at);
}

/** A run less the first one, number by number, with what both share cancelled. */
export function Differences({ now, first }: { readonly now: ComparedRun; readonly first: ComparedRun }) {
  const [ours, theirs] = [pumpRunOf(now.view.run, now.view.result), pumpRunOf(first.view.run, first.view.result)];
  if (ours === null || theirs === null) {
    return (
      <p>{ours === null ? now.letter : first.letter} has no slip law: its numbers cannot be held against the others.</p>
    );
  }
  const [against] = againstEarlier(ours, [theirs]);
  if (against === undefined) return null;
  const letters = [now.letter, first.letter] as const;
  const slip = dutyOf(now.view) === dutyOf(first.view) ? against.slipAtDutyM3PerS : null;
  return (
    <>
      <table class="stacking" data-testid="differences">
        <caption>
          ± is the expanded uncertainty for 95 %. {against.sharedSourceIds.length} errors are common to both runs and
          cancel in the difference as far as they act alike.
        </caption>
        <thead>
          <tr>
            <th scope="col">number</th>
            <th scope="col" class="number">
              {now.letter}
            </th>
            <th scope="col" class="number">
              {first.letter}
            </th>
            <th scope="col" class="number">
              {now.letter} less {first.letter}
            </th>
            <th scope="col">it means</th>
          </tr>
        </thead>
        <tbody>
          <Row what="derived capacity" unit="cm3/rev" agreement={against.derivedCapacityM3PerRev} letters={letters} />
          {slip !== null && <Row what="slip at the duty" unit="l/min" agreement={slip} letters={letters} />}
        </tbody>
      </table>
      {slip === null && (
        <p class="faint">Slip at the duty is not compared: the two pumps have no operating point in common.</p>
      )}
      <details>
        <summary>
          What the difference in capacity, {now.letter} less {first.letter}, rests on
        </summary>
        <BudgetList stated={against.derivedCapacityM3PerRev.difference} />
      </details>
    </>
  );
}
