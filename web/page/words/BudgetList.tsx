import { printFixed } from '../../../analysis/formatStated.ts';
import type { Stated } from '../../../analysis/uncertainty/stated.ts';

/** Lines of a budget that are worth a look. */
const SHOWN = 6;

/** Where an uncertainty comes from, the largest share first: what to measure better. */
export function BudgetList({ stated }: { readonly stated: Stated }) {
  return (
    <ol class="budget" data-testid="budget">
      {stated.budget.slice(0, SHOWN).map(({ sourceId, label, share }) => (
        <li key={sourceId}>
          <span class="number">{printFixed(100 * share, 1)} %</span> {label}
        </li>
      ))}
    </ol>
  );
}
