import { formatStated } from '../../../analysis/formatStated.ts';
import type { Stated } from '../../../analysis/uncertainty/stated.ts';
import { unitOf } from '../../../analysis/units.ts';

/** A value as a handbook sets it: digits as many as its uncertainty carries, that one smaller beside it. */
export function StatedValue(shown: {
  readonly stated: Stated;
  readonly unitSymbol: string;
  readonly hasUnit?: boolean;
}) {
  const { value, expandedUncertainty, unit } = formatStated(shown.stated, unitOf(shown.unitSymbol));
  return (
    <>
      {value} <span class="uncertainty">± {expandedUncertainty}</span>
      {shown.hasUnit === true && unit !== '' && <span class="unit"> {unit}</span>}
    </>
  );
}
