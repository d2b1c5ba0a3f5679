import type { CertifiedRun } from './certifiedRun.ts';

/** A certificate of the same archive, by the date that it bears. */
export type DatedCertificate = { readonly number: string; readonly issuedAtUtc: string };

function isBefore(instant: string, other: string): boolean {
  return Date.parse(instant) < Date.parse(other);
}

/**
 * What speaks against a date of issue: whatever was there before cannot be younger. Such a certificate is issued all the same,
 * since it may be the other date that is wrong, and says so.
 *
 * @param issuedAtUtc - date of issue by the computer's clock [ISO 8601]
 * @param runs - that it rests on [-]
 * @param newest - the certificate of the latest date that was filed before; null: there was none [-]
 * @returns a sentence for each contradiction; empty where there is none [-]
 */
export function dateDoubts(
  issuedAtUtc: string,
  runs: readonly CertifiedRun[],
  newest: DatedCertificate | null,
): readonly string[] {
  const later = runs.filter(({ run }) => isBefore(issuedAtUtc, run.startedAtUtc));
  const contradictions = later.map(
    ({ run }) => `run ${run.id}, which it rests on, began at ${run.startedAtUtc} by its own clock`,
  );
  if (newest !== null && isBefore(issuedAtUtc, newest.issuedAtUtc)) {
    contradictions.push(`certificate ${newest.number}, filed before it, was issued at ${newest.issuedAtUtc}`);
  }
  return contradictions.map(
    (what) =>
      `The date of issue, ${issuedAtUtc}, is in doubt: ${what}. A clock had been set back, or was ahead before.`,
  );
}
