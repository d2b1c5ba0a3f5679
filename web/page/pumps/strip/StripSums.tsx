import type { PumpRecord } from '../../../../analysis/records/pumpRecord.ts';
import type { StripSheet } from '../../../../analysis/records/stripSheet.ts';
import { judgeStripSheet } from '../../../../analysis/strip/judgeStripSheet.ts';
import { StatedValue } from '../../words/StatedValue.tsx';
import { unitSystem } from '../../words/unitSystem.ts';
import { WhatIf } from '../whatIf/WhatIf.tsx';

const UNITS = {
  length: { metric: 'mm', US: 'in' },
  torque: { metric: 'N m', US: 'in lbf' },
} as const;

/** Every clearance that the measurements so far give, against its limit, and what is still open. */
function StripSums({ sheet }: { readonly sheet: StripSheet }) {
  const { measurements, open } = judgeStripSheet(sheet);
  if (measurements.length === 0) {
    return <p class="faint">Clearances stand here as soon as their measurements are whole.</p>;
  }
  return (
    <div data-testid="strip-sums">
      <table class="stacking">
        <caption>± is the expanded uncertainty for 95 %.</caption>
        <thead>
          <tr>
            <th scope="col">clearance</th>
            <th scope="col" class="number">
              value
            </th>
            <th scope="col">limit</th>
          </tr>
        </thead>
        <tbody>
          {measurements.map(({ label, quantity, outcome }) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              {outcome.ok ? (
                <>
                  <td class="number">
                    <StatedValue
                      stated={outcome.value.stated}
                      unitSymbol={UNITS[quantity][unitSystem.value]}
                      hasUnit={true}
                    />
                  </td>
                  <td>{outcome.value.plainly}</td>
                </>
              ) : (
                <td colSpan={2}>
                  <span aria-hidden="true">▲</span> {outcome.reason.text}
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
      {open.length > 0 && (
        <ul>
          {open.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
    </div>
  );
}

/** The sums of a sheet and the slip that they predict. */
export function SumsAndSlip({ sheet, pump }: { readonly sheet: StripSheet; readonly pump: PumpRecord }) {
  return (
    <>
      <StripSums sheet={sheet} />
      {sheet.gapDimensions !== null && <WhatIf pump={pump} sheet={sheet} />}
    </>
  );
}
