import { no, type Outcome, yes } from '../outcome.ts';
import type { Readings } from '../readings.ts';
import type { RunRecord } from '../records/runRecord.ts';
import { sourceTable } from '../uncertainty/source.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';
import { blankedStarts } from './blankedStarts.ts';
import type { RecordedStart } from './estimateRun.ts';
import { findStartEvents, type StartEvents } from './events/findStartEvents.ts';
import type { StartEvent } from './events/startEvent.ts';
import type { FoundStart } from './fit/startMoments.ts';

/** A start against its pipe as the fit takes it: oil cannot have come before the event less its expanded uncertainty. */
export function liftStart({ motorStart, oilAtInlet, oilAtOutlet, speedRevPerS, sources }: StartEvents): FoundStart {
  const table = sourceTable(sources);
  const surelyBeforeS = (event: StartEvent): number | null =>
    event.seen ? event.atS.value - stateUncertainty(event.atS, table).expandedUncertainty : null;
  return {
    motorStartS: motorStart.atS.value,
    runningRevPerS: speedRevPerS,
    oilAtInletS: surelyBeforeS(oilAtInlet),
    oilAtOutletS: surelyBeforeS(oilAtOutlet),
  };
}

/**
 * The dry starts in a run's record: one of a dry-lift run, one or several of a blanked one.
 *
 * @param run - the run record [-]
 * @param readings - its readings [n readings, oldest first]
 * @param sweptVolumeM3PerRev - V_g of the pump [m³/rev]
 * @returns the starts, or why there are none [-]
 */
export function recordedStarts(
  run: RunRecord,
  readings: Readings,
  sweptVolumeM3PerRev: number,
): Outcome<readonly RecordedStart[], { readonly code: string; readonly text: string }> {
  if (run.kind === 'blanked') {
    const read = blankedStarts(run, readings, sweptVolumeM3PerRev);
    return read.ok ? yes(read.value.starts) : no(read.reason);
  }
  const events = findStartEvents(run, readings, sweptVolumeM3PerRev);
  return events.ok ? yes([{ readings, found: liftStart(events.value) }]) : no(events.reason);
}
