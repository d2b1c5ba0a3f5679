import type { Finding } from '../result.ts';
import type { DryLiftAnalysis } from './analyseDryLift.ts';
import type { DryFitRefusal, DryFitWarning } from './fit/dryFitRefusal.ts';

/** A refused fit takes nothing from what was proven: no severity above a warning, and that only where something is to be mended. */
const REFUSAL_SEVERITY: Readonly<Record<DryFitRefusal['code'], 'note' | 'warning'>> = {
  CHANNEL_MISSING: 'note',
  TOO_FEW_READINGS: 'note',
  NO_SUCTION: 'warning',
  DEAD_VOLUME_ZERO: 'warning',
  PIPE_CANNOT_HOLD_COLUMN: 'warning',
  SUCTION_NOT_GOOD_ENOUGH: 'warning',
  NOT_A_DRY_START: 'warning',
  DID_NOT_CONVERGE: 'warning',
};

const WARNING_SEVERITY: Readonly<Record<DryFitWarning['code'], 'note' | 'warning'>> = {
  BAROMETER_CONTRADICTS_SUCTION: 'warning',
  MODEL_MISFIT: 'warning',
  DEAD_VOLUME_CONTRADICTED: 'warning',
  SHAFT_LEAK_COUNTED_IN: 'note',
  SUCTION_SIDE_ASSUMED: 'note',
  CAPACITY_FROM_GEOMETRY: 'note',
  LIMIT_NOT_IDENTIFIED: 'note',
  GAP_CHANGES: 'note',
  BLANKED_AT_ONE_SPEED: 'note',
  IN_THIS_CLASS_ONLY: 'note',
};

/**
 * What a reader must know of a dry start: a start that cannot be read bars the run, an estimate that is refused or doubtful
 * does not.
 *
 * @param analysis - of a dry-lift or blanked run [-]
 * @returns findings, those that bar a certificate first [-]
 */
export function dryLiftFindings(analysis: DryLiftAnalysis): readonly Finding[] {
  const { found, estimate, leftOut, doubts } = analysis;
  const findings: Finding[] = [];
  if (!found.ok && found.reason.code !== 'SUCTION_BLANKED') {
    const { code, text } = found.reason;
    findings.push({ code, severity: 'unfit', text });
  }
  if (estimate.ok) {
    findings.push(
      ...estimate.value.fit.warnings.map(
        ({ code, text }): Finding => ({ code, severity: WARNING_SEVERITY[code], text }),
      ),
    );
  } else if (estimate.reason.isOfFit) {
    const { code, text } = estimate.reason.reason;
    findings.push({ code, severity: REFUSAL_SEVERITY[code], text: `No dry lift limit is estimated. ${text}` });
  }
  const known = new Set(findings.map(({ code }) => code));
  for (const { code, text } of doubts) if (!known.has(code)) findings.push({ code, severity: 'warning', text });
  if (analysis.riser.some(({ verdict }) => verdict === 'contradicts')) {
    findings.push({
      code: 'RISER_CONTRADICTS_SUCTION',
      severity: 'warning',
      text: 'What stood in the clear riser and what the suction channel said contradict each other: the channel cannot be trusted to half a metre of oil.',
    });
  }
  if (leftOut > 0) {
    findings.push({
      code: 'SUCTION_NOT_COME_BACK',
      severity: 'warning',
      text: `${leftOut === 1 ? 'One start' : `${leftOut} starts`} of this run could not be used: the suction had not come back to the atmosphere before the motor started. Open the valve for a moment between starts.`,
    });
  }
  return findings;
}
