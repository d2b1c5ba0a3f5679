import { printFixed } from '../../../../analysis/formatStated.ts';
import type { DeliveryResult } from '../../../../analysis/result.ts';
import { differenceFrom, unitOf } from '../../../../analysis/units.ts';
import { Wide } from '../../shell/Wide.tsx';

type Trials = NonNullable<NonNullable<DeliveryResult['fitted']>['monteCarlo']>;
type TrialValue = Trials['derivedCapacityM3PerRev'];

type Row = {
  readonly words: string;
  readonly unitSymbol: string;
  readonly unitWords: string;
  readonly decimals: number;
  readonly of: TrialValue;
};

function interval([low, high]: readonly [number, number], { unitSymbol, decimals }: Row): string {
  const unit = unitOf(unitSymbol);
  return `${printFixed(differenceFrom(low, unit), decimals)} to ${printFixed(differenceFrom(high, unit), decimals)}`;
}

/** The intervals by trials beside those by propagation. */
export function TrialsTable({ trials }: { readonly trials: Trials }) {
  const rows: readonly Row[] = [
    {
      words: 'derived capacity',
      unitSymbol: 'cm3/rev',
      unitWords: 'cm³/rev',
      decimals: 3,
      of: trials.derivedCapacityM3PerRev,
    },
    ...trials.points.flatMap(({ demandId, flowM3PerS, derivedEfficiency }): Row[] => [
      { words: `flow, ${demandId}`, unitSymbol: 'l/min', unitWords: 'l/min', decimals: 3, of: flowM3PerS },
      { words: `efficiency, ${demandId}`, unitSymbol: '%', unitWords: '%', decimals: 2, of: derivedEfficiency },
    ]),
  ];
  return (
    <Wide label="intervals by trials">
      <table data-testid="trials">
        <caption>
          95 % intervals by {trials.trials} seeded trials (JCGM 101) beside those by propagation
          {trials.failedTrials > 0 && `; ${trials.failedTrials} trials gave no law`}.
        </caption>
        <thead>
          <tr>
            <th scope="col">value</th>
            <th scope="col" class="number">
              by trials
            </th>
            <th scope="col" class="number">
              by propagation
            </th>
            <th scope="col">unit</th>
            <th scope="col">they agree</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.words}>
              <th scope="row">{row.words}</th>
              <td class="number">{interval(row.of.symmetricInterval, row)}</td>
              <td class="number">{interval(row.of.comparison.byPropagation, row)}</td>
              <td>{row.unitWords}</td>
              <td>{row.of.comparison.agrees ? 'yes' : 'no'}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
}
