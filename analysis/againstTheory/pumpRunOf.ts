import { isPointDemand } from '../efficiency/dutyOutlook.ts';
import { lawSpeaker } from '../efficiency/lawSpeaker.ts';
import { mergeSources } from '../efficiency/mergeSources.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { RunResult } from '../result.ts';
import type { Source } from '../uncertainty/source.ts';
import type { PumpRun } from './againstEarlier.ts';

/** What an error of a run rests on: a calibration, an oil's analysis, a pump record, a strip sheet; null: the run's own. */
export function referenceIn({ bench, oil, pump, stripSheet }: RunRecord, { id, kind }: Source): string | null {
  if (kind === 'random') return null;
  const [owner] = id.split('.');
  const channel = bench.channels.find((entry) => entry.channel === owner);
  if (channel !== undefined) {
    const { calibration, instrument } = channel;
    return calibration === null ? null : `${instrument}, ${calibration.reference}, ${calibration.calibratedOn}`;
  }
  if (owner === 'oil') return JSON.stringify(oil);
  if (owner === 'geometry') return `${pump.id}, version ${pump.version}`;
  if (owner === 'strip' && stripSheet !== null) return `${stripSheet.id}, version ${stripSheet.version}`;
  return null;
}

/**
 * A delivery run as it is held against others of the same pump: capacity, and slip at the duty's first operating point.
 *
 * @param run - run record [-]
 * @param result - its result [-]
 * @returns capacity and slip with their sources [m³/rev, m³/s]; null where no law was fitted
 */
export function pumpRunOf(run: RunRecord, result: RunResult): PumpRun | null {
  const { delivery } = result;
  if (delivery === null || !delivery.law.ok) return null;
  const law = delivery.law.value;
  const sources = Object.values(result.sources);
  const drain = delivery.fitted?.drain?.ok ? { drainCoefficientM3: delivery.fitted.drain.value.uncertain } : null;
  const duty = run.pump.duty?.demands.find(isPointDemand);
  const spoken = duty === undefined ? null : lawSpeaker(run, law, drain, sources).at(duty.at);
  return {
    runId: run.id,
    label: `${run.label}, run ${run.id}`,
    derivedCapacityM3PerRev: law.uncertain.derivedCapacityM3PerRev,
    slipAtDutyM3PerS: spoken?.ok ? spoken.value.slipM3PerS : null,
    sources: spoken?.ok ? spoken.value.sources : mergeSources(sources),
    referenceOf: (source) => referenceIn(run, source),
  };
}
