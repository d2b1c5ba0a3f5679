import { formatStated } from '../formatStated.ts';
import type { SourceTable, Uncertain } from '../uncertainty/source.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';
import { unitOf } from '../units.ts';

/** A share with its expanded uncertainty, as it stands in a sentence: '2.41 ± 0.32 %'. */
export function statedShare(share: Uncertain, sources: SourceTable): string {
  const { value, expandedUncertainty, unit } = formatStated(stateUncertainty(share, sources), unitOf('%'));
  return `${value} ± ${expandedUncertainty} ${unit}`;
}

/** A pressure difference with its expanded uncertainty, as it stands in a sentence: '6.12 ± 0.05 bar'. */
export function statedBar(differencePa: Uncertain, sources: SourceTable): string {
  const { value, expandedUncertainty } = formatStated(stateUncertainty(differencePa, sources), unitOf('bar(a)'));
  return `${value} ± ${expandedUncertainty} bar`;
}
