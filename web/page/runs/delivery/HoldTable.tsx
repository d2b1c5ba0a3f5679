import { Fragment } from 'preact';
import { useState } from 'preact/hooks';
import { printFixed } from '../../../../analysis/formatStated.ts';
import type { HoldExclusion } from '../../../../analysis/records/runRecord.ts';
import type { DeliveryResult, HoldResult, SlipLaw } from '../../../../analysis/result.ts';
import type { RunView } from '../../../api.ts';
import { Wide } from '../../shell/Wide.tsx';
import { wallTime } from '../../words/moments.ts';
import { ExcludeHoldForm } from './ExcludeHoldForm.tsx';
import { type HoldColumn, holdColumns } from './holdColumns.tsx';
import { holdRemarks } from './holdRemarks.ts';

type Shown = { readonly view: RunView; readonly onView: (view: RunView) => void };

function HoldRows(
  row: Shown & { readonly hold: HoldResult; readonly law: SlipLaw | null; readonly columns: readonly HoldColumn[] },
) {
  const { hold, law, columns, view, onView } = row;
  const [isAsking, setAsking] = useState(false);
  const remarks = holdRemarks(hold, law);
  const { leftOut } = hold;
  // What filling or the relief valve put out, a person cannot put back.
  const isFreeToMove = leftOut === null || leftOut.cause === 'person';
  const hasNote = remarks.length > 0 || isAsking;
  return (
    <Fragment>
      <tr class={`${leftOut === null ? '' : 'left-out '}${hasNote ? 'has-note' : ''}`}>
        <th scope="row" class="number">
          {hold.number}
        </th>
        <td>
          {isFreeToMove ? (
            <button
              type="button"
              class="quiet"
              aria-expanded={isAsking}
              aria-label={`${leftOut === null ? 'take out' : 'put back'} hold ${hold.number}`}
              onClick={() => setAsking(!isAsking)}
            >
              {leftOut === null ? 'take out' : 'put back'}
            </button>
          ) : (
            leftOut.cause
          )}
        </td>
        {columns.map(({ id, cell }) => (
          <td key={id} class="number">
            {cell(hold)}
          </td>
        ))}
      </tr>
      {hasNote && (
        <tr class="note">
          <td />
          <td colSpan={columns.length + 1}>
            {remarks.length > 0 && <p>{remarks.join(' ')}</p>}
            {isAsking && (
              <ExcludeHoldForm
                view={view}
                hold={hold}
                onView={(changed) => {
                  setAsking(false);
                  onView(changed);
                }}
              />
            )}
          </td>
        </tr>
      )}
    </Fragment>
  );
}

function holdsCovered(holds: readonly HoldResult[], { fromS, toS }: HoldExclusion): string {
  const within = holds.filter(({ startS, endS }) => startS < toS && endS > fromS).map(({ number }) => number);
  if (within.length === 0) return `${printFixed(fromS, 0)} s to ${printFixed(toS, 0)} s`;
  return `hold ${within.join(', ')}`;
}

/** Who took what out of the fit, or back in, and why. */
function Said({ view, holds }: { readonly view: RunView; readonly holds: readonly HoldResult[] }) {
  if (view.result.exclusions.length === 0) return null;
  return (
    <>
      <h3>Taken out of the fit, and back in</h3>
      <ol data-testid="exclusions">
        {view.result.exclusions.map((line) => (
          <li key={`${line.atUtc} ${line.fromS} ${line.reason}`}>
            {wallTime(line.atUtc)}, {line.person}: {holdsCovered(holds, line)} {line.isExcluded ? 'out' : 'back in'}:{' '}
            {line.reason}
          </li>
        ))}
      </ol>
    </>
  );
}

/** Every hold with all that was averaged in it. */
export function HoldTable({ result, ...shown }: Shown & { readonly result: DeliveryResult }) {
  const { holds } = result;
  if (holds.length === 0) return <p>No hold: nothing stood still long enough to be averaged.</p>;
  const columns = holdColumns(holds);
  const law = result.law.ok ? result.law.value : null;
  return (
    <>
      <p class="faint">
        ± is the expanded uncertainty for 95 %; suction pressure is absolute. η<sub>V,i</sub> = q/(V<sub>i</sub> n), η
        <sub>V,g</sub> = q/(V<sub>g</sub> n). Struck: left out of the fit, with the reason beneath.
      </p>
      <Wide label="table of holds">
        <table class="holds" data-testid="hold-table">
          <thead>
            <tr>
              <th scope="col">hold</th>
              <th scope="col">fit</th>
              {columns.map(({ id, head, unit }) => (
                <th key={id} scope="col" class="number">
                  {head}
                  <br />
                  {unit}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {holds.map((hold) => (
              <HoldRows key={hold.number} {...shown} hold={hold} law={law} columns={columns} />
            ))}
          </tbody>
        </table>
      </Wide>
      <Said view={shown.view} holds={holds} />
    </>
  );
}
