import { formatStated } from '../../../analysis/formatStated.ts';
import type { Stated } from '../../../analysis/uncertainty/stated.ts';
import { unitOf } from '../../../analysis/units.ts';

/** A value inside a sentence: '11.54 ± 0.08 l/min'. Pressures are absolute or differences, and said so by the sentence. */
export function statedWords(stated: Pick<Stated, 'value' | 'expandedUncertainty'>, unitSymbol: string): string {
  const { value, expandedUncertainty, unit } = formatStated(stated, unitOf(unitSymbol));
  return `${value} ± ${expandedUncertainty}${unit === '' ? '' : ` ${unit.replace('(a)', '')}`}`;
}
