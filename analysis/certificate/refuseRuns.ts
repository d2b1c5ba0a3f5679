import type { CertificateRefusal } from './certificateRefusal.ts';
import type { CertifiedRun } from './certifiedRun.ts';

function refuseTogether(runs: readonly CertifiedRun[]): CertificateRefusal | null {
  const [first] = runs;
  if (first === undefined) return { code: 'NO_RUNS', text: 'A certificate rests on one run or more; none was named.' };
  const seen = new Set<string>();
  for (const { run } of runs) {
    if (seen.has(run.id)) {
      return { code: 'SAME_RUN_TWICE', runId: run.id, text: `Run ${run.id} is named twice.` };
    }
    seen.add(run.id);
    const isSamePump = JSON.stringify(run.pump) === JSON.stringify(first.run.pump);
    if (!isSamePump) {
      return {
        code: 'DIFFERENT_PUMPS',
        runIds: [first.run.id, run.id],
        text: `Run ${first.run.id} is of pump ${first.run.pump.id}, version ${first.run.pump.version}; run ${run.id} of pump ${run.pump.id}, version ${run.pump.version}. A certificate speaks for one version of one pump.`,
      };
    }
  }
  return null;
}

function refuseRun({ run, closing, result }: CertifiedRun): CertificateRefusal | null {
  if (closing.ending === 'failed' || closing.ending === 'recovered') {
    return {
      code: 'NOT_WHOLE',
      runId: run.id,
      ending: closing.ending,
      text: `Run ${run.id} ended as '${closing.ending}' (${closing.reason}): record it again.`,
    };
  }
  const runOn = run.startedAtUtc.slice(0, 10);
  for (const { channel, calibration } of run.bench.channels) {
    // Calendar dates in ISO 8601 sort as text.
    if (calibration !== null && calibration.dueOn < runOn) {
      return {
        code: 'CALIBRATION_OUT_OF_DATE',
        runId: run.id,
        channel,
        dueOn: calibration.dueOn,
        runOn,
        text: `The calibration of ${channel} was due on ${calibration.dueOn}; run ${run.id} is of ${runOn}.`,
      };
    }
  }
  const unfit = result.findings.find(({ severity }) => severity === 'unfit');
  if (unfit === undefined) return null;
  return { code: 'NOT_FIT', runId: run.id, finding: unfit, text: `Run ${run.id}: ${unfit.text}` };
}

/** The first reason that bars a certificate from these runs; null where none does. */
export function refuseRuns(runs: readonly CertifiedRun[]): CertificateRefusal | null {
  const together = refuseTogether(runs);
  if (together !== null) return together;
  for (const certified of runs) {
    const refusal = refuseRun(certified);
    if (refusal !== null) return refusal;
  }
  return null;
}
