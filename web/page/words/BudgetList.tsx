import { useRef } from 'preact/hooks';
import { formatProbability, printFixed } from '../../../analysis/formatStated.ts';
import { readableBudget } from '../../../analysis/uncertainty/readableBudget.ts';
import type { Stated } from '../../../analysis/uncertainty/stated.ts';
import { PlotTools } from '../plots/PlotTools.tsx';

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

/** The same as one drawing, for a file: the page's own list wraps with its column. */
function BudgetDrawing({ lines }: { readonly lines: ReturnType<typeof readableBudget> }) {
  return (
    <svg width="760" height={24 * lines.length} aria-hidden="true">
      {lines.map(({ sourceId, label, share }, index) => (
        <g key={sourceId}>
          <text x="56" y={24 * index + 16} text-anchor="end">
            {formatProbability(share)}
          </text>
          <rect class="share" x="72" y={24 * index + 6} width={Math.max(1, 160 * Math.min(1, share))} height="12" />
          <text x="248" y={24 * index + 16}>
            {label}
          </text>
        </g>
      ))}
    </svg>
  );
}

/** Where an uncertainty comes from, the largest share first: what to measure better. */
export function BudgetList({ stated }: { readonly stated: Stated }) {
  const lines = readableBudget(stated);
  const rest = lines.slice(SHOWN);
  const figure = useRef<HTMLDivElement>(null);
  const restShare = rest.reduce((sum, { share }) => sum + share, 0);
  return (
    <div ref={figure}>
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
      <div class="off-page" aria-hidden="true" data-drawing>
        <BudgetDrawing lines={lines} />
      </div>
      <PlotTools
        title="Uncertainty budget"
        table={() => ({
          columns: ['source', 'kind', 'share of the variance [%]', 'standard uncertainty it makes [SI]'],
          rows: lines.map(({ label, kind, share, contribution }) => [
            label,
            kind === 'random' ? 'averages out' : 'does not average out',
            100 * share,
            contribution,
          ]),
        })}
        figure={figure}
      />
    </div>
  );
}
