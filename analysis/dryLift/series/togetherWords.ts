import { printRpm } from '../../formatStated.ts';
import type { DryTogether } from '../../resultSchema/dryTogetherSchema.ts';
import { intervalWords } from '../dryLiftWords.ts';

/** What a fit of several runs says, a sentence each; nothing where it is of one run alone. */
export function togetherWords({ runIds, limits, wetness, capacityRunId }: DryTogether): readonly string[] {
  if (runIds.length < 2) return [];
  const capacity = capacityRunId === null ? '' : `, with the derived capacity of run ${capacityRunId}`;
  return [
    `Runs ${runIds.join(' and ')} fitted together${capacity}:`,
    ...limits.map(
      ({ speedRevPerS, limitM }) =>
        `Estimated: dry lift limit ${intervalWords(limitM, 'm')} at ${printRpm(speedRevPerS)} r/min, in class ${wetness}.`,
    ),
  ];
}
