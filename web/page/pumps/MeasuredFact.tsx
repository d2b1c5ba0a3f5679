import { printedUnit } from '../../../analysis/formatStated.ts';
import type { Measured } from '../../../analysis/records/fields.ts';
import { differenceFrom, unitOf } from '../../../analysis/units.ts';
import { Fact } from '../runs/Conditions.tsx';

/** As many figures as the record holds, without the tail of binary fractions. */
export function figures(si: number, symbol: string): string {
  return String(Number(differenceFrom(si, unitOf(symbol)).toPrecision(9)));
}

/** A measured quantity with its standard uncertainty. */
export function MeasuredFact({
  name,
  of,
  symbol = 'mm',
}: {
  readonly name: string;
  readonly of: Measured;
  readonly symbol?: string;
}) {
  return (
    <Fact name={name}>
      {figures(of.value, symbol)} <span class="unit">{printedUnit(symbol)}</span>{' '}
      <span class="uncertainty">u {figures(of.standardUncertainty, symbol)}</span>
    </Fact>
  );
}
