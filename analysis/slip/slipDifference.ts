import { combine, type Source, type Uncertain } from '../uncertainty/source.ts';
import type { PredictedSlip } from './predictSlip.ts';

/** What a change would do to the slip. */
export type SlipDifference = {
  /** After less before [m³/s]. */
  readonly differenceM3PerS: Uncertain;
  readonly sources: readonly Source[];
};

/**
 * What-if: the slip after a change less the slip before it. Sources that both share cancel as far as they act alike; one
 * that was measured anew, with another uncertainty, counts as a source of its own.
 *
 * @param before - predicted slip as the pump is [m³/s]
 * @param after - predicted slip with the thinner gasket, the dressed face, the hotter oil [m³/s]
 * @returns difference with its sources [m³/s]
 *
 * Source: JCGM 100:2008, 5.2.2.
 */
export function slipDifference(before: PredictedSlip, after: PredictedSlip): SlipDifference {
  const known = new Map(before.sources.map((source) => [source.id, source]));
  const sensitivities: Record<string, number> = {};
  const added: Source[] = [];
  for (const source of after.sources) {
    const same = known.get(source.id);
    const isShared = same?.standardUncertainty === source.standardUncertainty;
    const id = same === undefined || isShared ? source.id : `${source.id}.after`;
    if (!isShared) added.push({ ...source, id });
    sensitivities[id] = after.slipM3PerS.sensitivities[source.id] ?? 0;
  }
  const changed: Uncertain = { value: after.slipM3PerS.value, sensitivities };
  return {
    differenceM3PerS: combine(changed.value - before.slipM3PerS.value, [
      { input: changed, derivative: 1 },
      { input: before.slipM3PerS, derivative: -1 },
    ]),
    sources: [...before.sources, ...added],
  };
}
