import { formatProbability, printFixed } from '../../../analysis/formatStated.ts';
import { readableBudget } from '../../../analysis/uncertainty/readableBudget.ts';
import type { Stated } from '../../../analysis/uncertainty/stated.ts';

/** Lines of a budget that are worth a look. */
const SHOWN = 6;

/** The line of all that is too small for one of its own. */
const TOGETHER = 'smaller';

/** Length of a bar that is all of the variance [CSS px]. */
const WHOLE_PX = 96;

/** Beyond this a coverage factor is no longer told from that of known sources [1]. */
const MANY_DEGREES = 1_000;

function degreesWords(degreesOfFreedom: number | null): string {
  if (degreesOfFreedom === null || degreesOfFreedom > MANY_DEGREES) return 'the sources taken as known';
  return `${printFixed(degreesOfFreedom, 0)} effective degrees of freedom`;
}

/** Where an uncertainty comes from, the largest share first: what to measure better. */
export function BudgetList({ stated }: { readonly stated: Stated }) {
  const lines = readableBudget(stated);
  const rest = lines.slice(SHOWN);
  const restShare = rest.reduce((sum, { share }) => sum + share, 0);
  return (
    <>
      <ol class="budget" data-testid="budget">
        {lines.slice(0, SHOWN).map(({ sourceId, label, kind, share }) => (
          <li key={sourceId}>
            <span class="number">{formatProbability(share)}</span>
            <svg width={WHOLE_PX} height="10" aria-hidden="true">
              <rect class="whole" width={WHOLE_PX} height="10" />
              <rect class="share" width={WHOLE_PX * Math.min(1, share)} height="10" />
            </svg>
            <span>
              {label}
              {sourceId !== TOGETHER && (
                <span class="faint">{kind === 'random' ? ', averages out' : ', does not average out'}</span>
              )}
            </span>
          </li>
        ))}
      </ol>
      <p class="chart-note">
        Shares of the variance{rest.length > 0 && `; ${rest.length} more: ${formatProbability(restShare)}`}. Expanded by
        k = {printFixed(stated.coverageFactor, 2)} for 95 %, {degreesWords(stated.degreesOfFreedom)}.
      </p>
    </>
  );
}
