import type { CertificateData } from './certificateData.ts';
import type { CertifiedRun } from './certifiedRun.ts';
import type { CertificateBench, CertificateConditions, CertificateRun } from './testedSchema.ts';

function certificateRun({ run, closing, result }: CertifiedRun): CertificateRun[] {
  const { ending } = closing;
  // Refused before.
  if (ending === 'failed' || ending === 'recovered') return [];
  return [
    {
      id: run.id,
      kind: run.kind,
      label: run.label,
      startedAtUtc: run.startedAtUtc,
      closedAtUtc: closing.closedAtUtc,
      ending,
      operator: run.operator,
      isPractice: result.isPractice,
      programVersion: run.programVersion,
      analysisVersion: result.analysisVersion,
      bench: { id: run.bench.id, version: run.bench.version },
      lineCount: closing.lineCount,
      readingCount: result.census.readingCount,
      byteLength: closing.byteLength,
      sha256: closing.sha256,
      mounting: run.mounting,
      zeroCheck: run.zeroCheck,
      stripSheet: run.stripSheet === null ? null : { id: run.stripSheet.id, version: run.stripSheet.version },
      exclusions: [...result.exclusions],
    },
  ];
}

/** The runs by id, with the hashes that were sealed with them. */
export function runParts(runs: readonly CertifiedRun[]): CertificateRun[] {
  return runs.flatMap(certificateRun);
}

/** Every bench that took part, once, with its instruments and their calibrations. */
export function benchParts(runs: readonly CertifiedRun[]): CertificateBench[] {
  const benches = new Map<string, CertificateBench>();
  for (const { id, version, name, workshop, channels, holdLimits } of runs.map(({ run }) => run.bench)) {
    const instruments = channels.map(({ channel, instrument, unit, range, calibration, tapping, lagS }) => ({
      channel,
      instrument,
      unit,
      range,
      calibration,
      tapping,
      lagS,
    }));
    benches.set(`${id}/${version}`, { id, version, name, workshop, instruments, holdLimits });
  }
  return [...benches.values()];
}

/** Oil, surroundings and suction side of every run. */
export function conditionParts(runs: readonly CertifiedRun[]): CertificateConditions[] {
  return runs.map(({ run, result }) => {
    const temperaturesK = (result.delivery?.holds ?? []).map(({ oilTemperatureK }) => oilTemperatureK.value);
    return {
      runId: run.id,
      oil: run.oil,
      setUp: run.setUp,
      oilTemperatureK:
        temperaturesK.length === 0 ? null : { lowest: Math.min(...temperaturesK), highest: Math.max(...temperaturesK) },
    };
  });
}

/** What runs of other kinds say: relief valve, suction. */
export function furtherRunParts(runs: readonly CertifiedRun[]): CertificateData['furtherRuns'] {
  return runs.flatMap(({ run, result: { relief, suction } }) => {
    const inWords = [
      ...(relief?.ok === true ? [relief.value.text] : []),
      ...(suction?.ok === true ? suction.value.losses.map(({ text }) => text) : []),
    ];
    return inWords.length === 0 ? [] : [{ runId: run.id, kind: run.kind, inWords }];
  });
}

/** What must be known of the runs before their numbers are read. */
export function findingParts(runs: readonly CertifiedRun[]): CertificateData['findings'] {
  return runs.flatMap(({ run, result }) =>
    result.findings.flatMap(({ code, severity, text }) =>
      severity === 'unfit' ? [] : [{ runId: run.id, code, severity, text }],
    ),
  );
}
