import { intervalWords, limitWords, untoldWords } from '../../../../analysis/dryLift/dryLiftWords.ts';
import { printFixed, printRpm } from '../../../../analysis/formatStated.ts';
import type { DryLiftResult } from '../../../../analysis/result.ts';
import { BudgetList } from '../../words/BudgetList.tsx';

const GAP_CHANGE_WORDS = {
  changes: 'changed during the start; the limit is that of its end',
  constant: 'stayed the same during the start',
  undecided: 'cannot be told',
} as const;

const BASIS_WORDS = {
  derived: 'the derived capacity of a delivery run',
  geometry: 'the swept volume of the geometry',
} as const;

/** What the fitted model says of the dry pump, apart from what was proven. */
export function EstimatePassage({ result }: { readonly result: DryLiftResult }) {
  const { estimate, wetness } = result;
  if (!estimate.ok) {
    return (
      <p class="look-here" data-testid="dry-estimate">
        No dry lift limit is estimated. {estimate.reason.text}
      </p>
    );
  }
  const { limits, deadVolumeM3, carryOverShare, gapChange, search, capacityBasis } = estimate.value;
  const untold = untoldWords(estimate.value);
  const [first] = limits;
  return (
    <div data-testid="dry-estimate">
      {limitWords(estimate.value, wetness).map((sentence) => (
        <p class="lead" key={sentence}>
          {sentence}
        </p>
      ))}
      {untold !== null && <p>{untold}</p>}
      <dl class="checks">
        {limits.map(({ speedRevPerS, blankOffPressurePa }) => (
          <div key={speedRevPerS}>
            <dt>blank-off pressure at {printRpm(speedRevPerS)} r/min</dt>
            <dd>{intervalWords(blankOffPressurePa, 'bar(a)')}</dd>
          </div>
        ))}
        <div>
          <dt>dead volume before the gears</dt>
          <dd>{intervalWords(deadVolumeM3, 'cm3')}</dd>
        </div>
        <div>
          <dt>gas that the mesh brings back, of each turn</dt>
          <dd>{intervalWords(carryOverShare, '%')}</dd>
        </div>
        <div>
          <dt>whether leak-back changed</dt>
          <dd>
            {GAP_CHANGE_WORDS[gapChange.verdict]}
            {gapChange.startRatio !== null && `; at first ${intervalWords(gapChange.startRatio, '1')} times the end`}
          </dd>
        </div>
        <div>
          <dt>the fit</dt>
          <dd>
            {search.readingCount} readings, the search agreed after {search.iterations} steps from {search.startCount}{' '}
            starts; scatter {printFixed(search.noiseFactor, 1)} times the noise; capacity: {BASIS_WORDS[capacityBasis]}
          </dd>
        </div>
      </dl>
      {first !== undefined && (
        <details>
          <summary>What the interval of the limit rests on</summary>
          <BudgetList stated={first.limitBudgetM} />
        </details>
      )}
      <p class="faint">
        Intervals are for 95 % and need not lie evenly. An estimate proves no lift: only oil that came does.
      </p>
    </div>
  );
}
