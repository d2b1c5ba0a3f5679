import { lawSpeaker, type Spoken } from '../efficiency/lawSpeaker.ts';
import type { SpokenPoint } from '../efficiency/spokenLaw.ts';
import { OTHER_OIL } from '../efficiency/spokenOil.ts';
import type { OilRecord } from '../records/oilRecord.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { RunResult } from '../result.ts';
import { type Source, sourceTable, type Uncertain } from '../uncertainty/source.ts';
import { type Agreement, agreementOf } from './agreement.ts';
import { heldAgainst, type RunErrors } from './heldAgainst.ts';
import { referenceIn } from './pumpRunOf.ts';

/** A sealed run with its result. */
type AnalysedRun = { readonly run: RunRecord; readonly result: RunResult };

/** What two runs deliver at a point: `measured` is this run, `expected` the other one [m³/s]. */
export type FlowDifference = { readonly at: SpokenPoint; readonly flowM3PerS: Agreement };

/** An error of the run's own oil, where the law is spoken for another, must not be taken for one of that. */
const OWN_OIL = 'own.';

type Said = { readonly flowM3PerS: Uncertain; readonly errors: RunErrors };

/** Ids as the run whose oil is spoken of has them: its oil by its plain name, the other run's own apart. */
function renamed(id: string): string {
  if (id.startsWith(OTHER_OIL)) return id.slice(OTHER_OIL.length);
  return id.startsWith('oil.') ? OWN_OIL + id : id;
}

function inOilOf({ flowM3PerS, sources }: Pick<Spoken, 'flowM3PerS' | 'sources'>) {
  const isOther = Object.keys(sources).some((id) => id.startsWith(OTHER_OIL));
  if (!isOther) return { flowM3PerS, sources };
  const { value, sensitivities } = flowM3PerS;
  return {
    flowM3PerS: {
      value,
      sensitivities: Object.fromEntries(Object.entries(sensitivities).map(([id, by]) => [renamed(id), by])),
    },
    sources: sourceTable(Object.values(sources).map((source) => ({ ...source, id: renamed(source.id) }))),
  };
}

/** What asks a run's law for its flow with the oil of another; null where no law was fitted. */
function speakerOf({ run, result }: AnalysedRun, oil: OilRecord): ((at: SpokenPoint) => Said | null) | null {
  const { delivery } = result;
  if (delivery === null || !delivery.law.ok) return null;
  const drain = delivery.fitted?.drain?.ok ? { drainCoefficientM3: delivery.fitted.drain.value.uncertain } : null;
  const speaker = lawSpeaker(run, delivery.law.value, drain, Object.values(result.sources), oil);
  const referenceOf = (source: Source): string | null =>
    source.id.startsWith('oil.') ? JSON.stringify(oil) : referenceIn(run, source);
  return (at) => {
    const spoken = speaker.at(at);
    if (!spoken.ok) return null;
    const { flowM3PerS, sources } = inOilOf(spoken.value);
    return { flowM3PerS, errors: { runId: run.id, label: `${run.label}, run ${run.id}`, sources, referenceOf } };
  };
}

/**
 * What two runs, of one pump or of two, deliver at the same points with the same oil, and how far apart they are. Both
 * laws are spoken for the oil of this run; what the runs share cancels as heldAgainst has it.
 *
 * @param now - this run [-]
 * @param other - the run that it is held against [-]
 * @param points - within what both have measured, for the caller to see to [n points; rev/s, Pa, K]
 * @returns one entry a point at which both laws can be spoken [m³/s]; empty where a run has no law
 *
 * Source: JCGM 100:2008, 5.2.2; agreement as agreementOf.
 */
export function flowDifferences(
  now: AnalysedRun,
  other: AnalysedRun,
  points: readonly SpokenPoint[],
): readonly FlowDifference[] {
  const [here, there] = [speakerOf(now, now.run.oil), speakerOf(other, now.run.oil)];
  if (here === null || there === null) return [];
  return points.flatMap((at) => {
    const [ours, theirs] = [here(at), there(at)];
    if (ours === null || theirs === null) return [];
    const { ofOther, state } = heldAgainst(ours.errors, theirs.errors);
    return [{ at, flowM3PerS: agreementOf(ours.flowM3PerS, ofOther(theirs.flowM3PerS), state) }];
  });
}
