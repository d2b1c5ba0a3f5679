import type { ChainPlace } from '../../analysis/certificate/certificateData.ts';
import type { CertificateCheck, ChainCheck, ReadCertificate, StandingCheck } from './certificateCheck.ts';
import type { CertificateLedger } from './certificateLedger.ts';

export type Knowledge = {
  /** SHA-256 of the certificates of keys that are known here. */
  readonly knownKeys: ReadonlySet<string>;
  /** Folders of certificates that may know more, the nearest first. */
  readonly ledgers: readonly CertificateLedger[];
};

/** The first that knows; else what the nearest says. */
function chainIn(ledgers: readonly CertificateLedger[], place: ChainPlace): ChainCheck {
  const checks = ledgers.map((ledger) => ledger.chainBefore(place));
  const known = checks.find(({ state }) => state !== 'not here') ?? checks[0];
  return known ?? { state: 'not here', text: 'What was filed before it is not looked for.' };
}

function standingIn(ledgers: readonly CertificateLedger[], number: string, jsonSha256: string): StandingCheck {
  const checks = ledgers.map((ledger) => ledger.standingOf(number, jsonSha256));
  // The archive's word counts before that of a folder in which only the certificate itself lies.
  const order = ['another', 'changed notice', 'withdrawn', 'replaced', 'issued'] as const;
  const known = order.flatMap((state) => checks.find((check) => check.state === state) ?? [])[0] ?? checks[0];
  return known ?? { state: 'not told', text: 'Whether it still stands is not known here.' };
}

/**
 * Sets what a file says of itself against what is known here: its key, what was filed before it, whether it still stands.
 *
 * @param read - what the file says [-]
 * @param knowledge - keys and certificates that are known here [-]
 */
export function checkAgainst(read: ReadCertificate, { knownKeys, ledgers }: Knowledge): CertificateCheck {
  if (!('whole' in read)) return read;
  const { whole, place } = read;
  return {
    ...whole,
    isKeyKnown: knownKeys.has(whole.signedBy.certificateSha256),
    chain: chainIn(ledgers, place),
    standing: standingIn(ledgers, whole.number, whole.jsonSha256),
  };
}
