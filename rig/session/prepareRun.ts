import { sweptVolumeOf } from '../../analysis/displacement/sweptVolume.ts';
import { whyNeverDry } from '../../analysis/guide/dryTurning.ts';
import type { RunGuide } from '../../analysis/guide/guideSetting.ts';
import { createRunGuide } from '../../analysis/guide/runGuide.ts';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { RunRecord } from '../../analysis/records/runRecord.ts';
import type { Archive } from '../archive/openArchive.ts';
import { monotonicNowUs } from '../serial/receivedLine.ts';
import { SessionError } from './sessionErrors.ts';
import { stripSheetFor } from './stripSheetFor.ts';

export type StartRun = Pick<RunRecord, 'kind' | 'label' | 'operator' | 'oil' | 'setUp'> &
  Partial<Pick<RunRecord, 'zeroCheck' | 'mounting'>> & { readonly pumpId: string };

/** Kinds of run that turn the pump dry. */
const DRY_KINDS: readonly RunRecord['kind'][] = ['dryLift', 'blanked'];

/** Where a run is recorded from, and by what. */
export type RunOrigin = {
  readonly archive: Archive;
  readonly bench: BenchRecord;
  readonly portPath: string;
  readonly programVersion: string;
};

/** A run that steps itself gives a set point up after so long by its own clock, and no sooner than so by the wall's [s]. */
const PATIENCE_S = 45;
const WALL_PATIENCE_S = 5;

/**
 * How long a run that steps itself waits for a set point: a practice bench in haste waits for the program too.
 *
 * @param speedUp - bench seconds in a second of the wall [1]
 * @returns patience in bench time [s]
 */
export function patienceAt(speedUp: number): number {
  return Math.max(PATIENCE_S, WALL_PATIENCE_S * speedUp);
}

/**
 * Makes the record of a run, whole before its first byte, and the guide that leads through it.
 *
 * @param request - what a person says of the run [-]
 * @param origin - bench, port and archive [-]
 * @param patienceS - how long the guide waits for a set point; null where a person leads [s]
 * @throws SessionError if the pump cannot be run so
 */
export function prepareRun(
  request: StartRun,
  origin: RunOrigin,
  patienceS: number | null,
): { readonly run: RunRecord; readonly folder: string; readonly guide: RunGuide } {
  const { archive, bench, portPath, programVersion } = origin;
  const { pumpId, ...rest } = request;
  const pump = archive.latestPump(pumpId);
  const whyNot = DRY_KINDS.includes(rest.kind) ? whyNeverDry(pump) : null;
  if (whyNot !== null) throw new SessionError('MUST_NOT_RUN_DRY', whyNot);
  const swept = sweptVolumeOf(pump.geometry);
  if (!swept.ok) throw new SessionError('GEOMETRY', `${pump.name}: ${swept.reason.text}`);
  const { run, folder } = archive.createRun({
    ...rest,
    pump,
    bench,
    stripSheet: stripSheetFor(archive, pump.id, rest.label),
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
    wetness: run.setUp.wetness,
    patienceS,
  });
  return { run, folder, guide };
}
