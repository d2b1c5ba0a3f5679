import type { ComponentChildren } from 'preact';
import type { Stated } from '../../../analysis/uncertainty/stated.ts';
import { BudgetList } from './BudgetList.tsx';
import { StatedValue } from './StatedValue.tsx';

/** A number that is judged or quoted; opened, it shows what its uncertainty rests on. */
export function HeadlineNumber(shown: {
  readonly name: ComponentChildren;
  readonly stated: Stated;
  readonly unitSymbol: string;
}) {
  return (
    <details class="headline-number">
      <summary>
        <span class="headline-name">{shown.name}</span>{' '}
        <span class="headline-value">
          <StatedValue stated={shown.stated} unitSymbol={shown.unitSymbol} hasUnit={true} />
        </span>
      </summary>
      <BudgetList stated={shown.stated} />
    </details>
  );
}
