import { printRpm } from '../../formatStated.ts';
import type { DryTogether } from '../../resultSchema/dryTogetherSchema.ts';
import { intervalWords } from '../dryLiftWords.ts';

type Limits = DryTogether['alone'][number]['limits'];

function atSpeeds(limits: Limits): string {
  return limits
    .map(({ speedRevPerS, limitM }) => `${intervalWords(limitM, 'm')} at ${printRpm(speedRevPerS)} r/min`)
    .join(' and ');
}

function aloneWords({ kind, runId, limits }: DryTogether['alone'][number]): string {
  return `${kind === 'blanked' ? 'the blanked' : 'the lift'} run ${runId} ${atSpeeds(limits)}`;
}

/** What a fit of several runs says, the limit first, and what each of them says alone; nothing where it is of one run. */
export function togetherWords({ runIds, limits, wetness, capacityRunId, alone }: DryTogether): readonly string[] {
  if (runIds.length < 2) return [];
  const capacity = capacityRunId === null ? '' : `, with the derived capacity of run ${capacityRunId}`;
  return [
    `Estimated: dry lift limit ${atSpeeds(limits)}, in class ${wetness}. Fitted to runs ${runIds.join(' and ')} together${capacity}.`,
    ...(alone.length === 0 ? [] : [`Each alone says: ${alone.map(aloneWords).join('; ')}.`]),
  ];
}
