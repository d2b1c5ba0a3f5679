import { StatedValue } from '../../words/StatedValue.tsx';
import type { ComparedRun } from './comparedRuns.ts';

/** Priming times beside each other, and whether each differs from the first by more than scatter explains. */
export function DryStarts({ runs }: { readonly runs: readonly ComparedRun[] }) {
  const starts = runs.flatMap((run) => {
    const priming = run.view.result.dryLift?.priming;
    return priming === undefined ? [] : [{ run, primed: priming.ok && priming.value.primed ? priming.value : null }];
  });
  if (starts.length === 0) return null;
  const first = starts[0]?.primed ?? null;
  return (
    <table class="stacking" data-testid="dry-starts">
      <caption>
        ± is the expanded uncertainty for 95 % of one start. Starts scatter: two of them prove no difference between
        pumps.
      </caption>
      <thead>
        <tr>
          <th scope="col">run</th>
          <th scope="col">prepared</th>
          <th scope="col" class="number">
            static lift
          </th>
          <th scope="col" class="number">
            priming time
          </th>
          <th scope="col">against the first</th>
        </tr>
      </thead>
      <tbody>
        {starts.map(({ run, primed }) => {
          const { dryLift } = run.view.result;
          const apart = primed === null || first === null ? null : primed.primingTimeS.value - first.primingTimeS.value;
          const reach = Math.hypot(
            primed?.primingTimeS.expandedUncertainty ?? 0,
            first?.primingTimeS.expandedUncertainty ?? 0,
          );
          return (
            <tr key={run.letter}>
              <th scope="row">{run.letter}</th>
              <td data-head="prepared">{dryLift?.wetness}</td>
              <td class="number" data-head="static lift">
                {dryLift?.staticLiftM.toFixed(2)} m
              </td>
              <td class="number" data-head="priming time">
                {primed === null ? (
                  'not primed'
                ) : (
                  <StatedValue stated={primed.primingTimeS} unitSymbol="s" hasUnit={true} />
                )}
              </td>
              <td data-head="against the first">
                {apart === null || primed === first
                  ? '–'
                  : Math.abs(apart) <= reach
                    ? 'the same within its uncertainty'
                    : `${Math.abs(apart).toFixed(1)} s ${apart > 0 ? 'later' : 'sooner'}`}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
