import { sweptVolumeOf } from '../../analysis/displacement/sweptVolume.ts';
import { createRunGuide, type RunGuide } from '../../analysis/guide/runGuide.ts';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { RunRecord } from '../../analysis/records/runRecord.ts';
import type { Archive } from '../archive/openArchive.ts';
import { monotonicNowUs } from '../serial/receivedLine.ts';
import { SessionError } from './sessionErrors.ts';

export type StartRun = Pick<RunRecord, 'kind' | 'label' | 'operator' | 'oil' | 'setUp'> & { readonly pumpId: string };

/** Where a run is recorded from, and by what. */
export type RunOrigin = {
  readonly archive: Archive;
  readonly bench: BenchRecord;
  readonly portPath: string;
  readonly programVersion: string;
};

/** A run that steps itself gives a set point up after so long [s]. */
const PATIENCE_S = 45;

/**
 * Makes the record of a run, whole before its first byte, and the guide that leads through it.
 *
 * @throws SessionError if the pump cannot be run so
 */
export function prepareRun(
  request: StartRun,
  origin: RunOrigin,
  stepsItself: boolean,
): { readonly run: RunRecord; readonly folder: string; readonly guide: RunGuide } {
  const { archive, bench, portPath, programVersion } = origin;
  const { pumpId, ...rest } = request;
  const pump = archive.latestPump(pumpId);
  if (rest.kind === 'dryLift' && !pump.mayRunDry) {
    throw new SessionError('MUST_NOT_RUN_DRY', `${pump.name} must never run dry: its record says so`);
  }
  const swept = sweptVolumeOf(pump.geometry);
  if (!swept.ok) throw new SessionError('GEOMETRY', `${pump.name}: ${swept.reason.text}`);
  const { run, folder } = archive.createRun({
    ...rest,
    pump,
    bench,
    startedAtUtc: new Date().toISOString(),
    startedMonotonicUs: monotonicNowUs(),
    source: { kind: 'port', path: portPath },
    programVersion,
  });
  const guide = createRunGuide({
    kind: run.kind,
    pump,
    bench,
    barometerPa: run.setUp.barometerPa.value,
    sweptVolumeM3PerRev: swept.value.sweptVolume.value,
    deliveryLineVolume: run.setUp.deliveryLineVolumeM3,
    patienceS: stepsItself ? PATIENCE_S : null,
  });
  return { run, folder, guide };
}
