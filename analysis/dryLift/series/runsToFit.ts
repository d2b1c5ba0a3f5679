import type { RunRecord } from '../../records/runRecord.ts';
import type { AnalysedDryRun } from './seriesStart.ts';

/** Everything that must be the same for two runs to be of one pump in one state on one suction side. */
function sameness({ run, result }: AnalysedDryRun): string {
  const { barometerPa: _barometer, wetting: _wetting, riserHeightM: _riser, ...suctionSide } = run.setUp;
  return JSON.stringify([
    run.pump,
    run.bench,
    run.label,
    run.mounting,
    run.oil,
    run.zeroCheck,
    suctionSide,
    result.isPractice,
  ]);
}

function hasEstimate({ result }: AnalysedDryRun): boolean {
  return result.dryLift?.estimate.ok === true;
}

/** The kind of dry run that tells what this one does not. */
function otherKind(kind: RunRecord['kind']): RunRecord['kind'] {
  return kind === 'blanked' ? 'dryLift' : 'blanked';
}

/**
 * Which runs are fitted together: a dry-lift run with the newest blanked one of the same pump, class, mounting and suction
 * side, or the other way round. A blanked start shows deep vacuum, a lift the column: each tells what the other does not.
 *
 * @param of - a dry-lift or blanked run [-]
 * @param all - every run of the pump that is known [-]
 * @returns the run, and its partner where there is one, older first [-]
 */
export function runsToFit<Run extends AnalysedDryRun>(of: Run, all: readonly Run[]): readonly Run[] {
  const wanted = sameness(of);
  const partner = all
    .filter((other) => other.run.kind === otherKind(of.run.kind) && hasEstimate(other) && sameness(other) === wanted)
    .sort((a, b) => Date.parse(b.run.startedAtUtc) - Date.parse(a.run.startedAtUtc))[0];
  if (partner === undefined) return [of];
  return [of, partner].sort((a, b) => Date.parse(a.run.startedAtUtc) - Date.parse(b.run.startedAtUtc));
}

/**
 * The delivery run whose V_i is taken for the capacity in place of V_g.
 *
 * @param of - a dry-lift or blanked run [-]
 * @param all - every run of the pump that is known [-]
 * @returns the newest of the same pump on the same bench in the same mounting whose law was fitted; null: none [-]
 */
export function deliveryToFit(of: AnalysedDryRun, all: readonly AnalysedDryRun[]): AnalysedDryRun | null {
  const mounted = ({ run, result }: AnalysedDryRun): string =>
    JSON.stringify([run.pump, run.bench, run.mounting, result.isPractice]);
  const wanted = mounted(of);
  const fitted = all.filter((other) => other.result.delivery?.law.ok === true && mounted(other) === wanted);
  return fitted.sort((a, b) => Date.parse(b.run.startedAtUtc) - Date.parse(a.run.startedAtUtc))[0] ?? null;
}
