import type { AgainstTheory } from '../../../../analysis/result.ts';
import { Wide } from '../../shell/Wide.tsx';
import { StatedValue } from '../../words/StatedValue.tsx';

type Equivalent = NonNullable<AgainstTheory['equivalentClearances']>;

/** What each clearance alone would have to be to explain the measured slip. */
export function EquivalentClearances({ equivalent }: { readonly equivalent: Equivalent }) {
  return (
    <Wide label="equivalent clearances">
      <table class="stacking" data-testid="equivalent-clearances">
        <caption>
          What each clearance alone would have to be, all others as on the strip sheet, to explain the slip of hold{' '}
          {equivalent.holdNumber}.
        </caption>
        <thead>
          <tr>
            <th scope="col">clearance</th>
            <th scope="col" class="number">
              it would be
              <br />
              µm
            </th>
            <th scope="col" class="number">
              on the sheet
              <br />
              µm
            </th>
          </tr>
        </thead>
        <tbody>
          {equivalent.clearances.map(({ clearanceId, label, against, inWords }) => (
            <tr key={clearanceId}>
              <th scope="row">{label}</th>
              <td class="number" data-head="would be, µm">
                {against.length === 0
                  ? inWords
                  : against.map(({ measured }, index) => (
                      <span key={measured.value}>
                        {index > 0 && ' or '}
                        <StatedValue stated={measured} unitSymbol="um" />
                      </span>
                    ))}
              </td>
              <td class="number" data-head="on the sheet, µm">
                {against[0] === undefined ? '–' : <StatedValue stated={against[0].expected} unitSymbol="um" />}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
}
