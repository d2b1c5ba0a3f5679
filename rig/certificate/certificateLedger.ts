import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ChainPlace } from '../../analysis/certificate/certificateData.ts';
import { type WithdrawalData, withdrawalData } from '../../analysis/certificate/withdrawalData.ts';
import type { ChainCheck, StandingCheck } from './certificateCheck.ts';
import { CertificateChain } from './chain.ts';
import { FilesRead } from './filesRead.ts';
import { certificateInJws, verifyJws } from './signature/jws.ts';
import {
  type Replacement,
  readReplacements,
  standingFrom,
  standingWords,
  withdrawalPath,
  withdrawnNumbers,
} from './standing.ts';

export type LedgerLimits = {
  /** So many certificates the chain is walked back; left out: to the first. */
  readonly longestWalk?: number;
  /** What took a certificate's place, where that is known without reading every file. */
  readonly replacementOf?: (number: string) => Replacement | null;
  /** What is known of files already; left out: nothing. */
  readonly files?: FilesRead;
};

/** What a folder of certificates knows of others: the chain before them, and whether they still stand. */
export class CertificateLedger {
  private readonly chain: CertificateChain;
  private readonly files: FilesRead;
  private replacements: ReadonlyMap<string, Replacement> | null = null;
  private withdrawn: ReadonlySet<string> | null = null;

  constructor(
    readonly folder: string,
    private readonly limits: LedgerLimits = {},
  ) {
    this.files = limits.files ?? new FilesRead();
    this.chain = new CertificateChain(folder, this.files, limits.longestWalk);
  }

  chainBefore(place: ChainPlace): ChainCheck {
    return this.chain.before(place);
  }

  /**
   * @param number - of the certificate in question [-]
   * @param jsonSha256 - of its data [-]
   */
  standingOf(number: string, jsonSha256: string): StandingCheck {
    const path = join(this.folder, `${number}.json`);
    const filed = this.files.read(path);
    if (filed === null) {
      return {
        state: 'not told',
        text: `No certificate ${number} is filed here: whether it still stands is not known.`,
      };
    }
    if (filed.sha256 !== jsonSha256) {
      return { state: 'another', text: `Another certificate bears the number ${number} here: ${path}.` };
    }
    this.withdrawn ??= new Set(withdrawnNumbers(this.folder));
    if (this.withdrawn.has(number)) return this.withdrawnCheck(number, jsonSha256);
    const standing = standingFrom(null, this.replacementOf(number));
    return standing.state === 'issued'
      ? { state: 'issued', text: 'Nothing here says that it was replaced or withdrawn.' }
      : { state: standing.state, text: `It was ${standingWords(standing)}` };
  }

  /** A notice is believed with its signature alone. */
  private withdrawnCheck(number: string, jsonSha256: string): StandingCheck {
    const path = withdrawalPath(this.folder, number, 'json');
    const withdrawal = readSignedWithdrawal(this.folder, number);
    if (withdrawal?.number !== number || withdrawal.jsonSha256 !== jsonSha256) {
      return { state: 'changed notice', text: `${path} says that it was withdrawn, but is not as it was signed.` };
    }
    return { state: 'withdrawn', text: `It was ${standingWords(standingFrom(withdrawal, null))}` };
  }

  private replacementOf(number: string): Replacement | null {
    if (this.limits.replacementOf !== undefined) return this.limits.replacementOf(number);
    this.replacements ??= readReplacements(this.folder, this.files);
    return this.replacements.get(number) ?? null;
  }
}

/** The withdrawal of a certificate, with its signature; null: it cannot be read, or its signature does not fit. */
export function readSignedWithdrawal(folder: string, number: string): WithdrawalData | null {
  try {
    const json = readFileSync(withdrawalPath(folder, number, 'json'));
    const jws = readFileSync(withdrawalPath(folder, number, 'jws'), 'latin1');
    const certificate = certificateInJws(jws);
    if (certificate === null || !verifyJws(jws, json, certificate.publicKey)) return null;
    return withdrawalData.parse(JSON.parse(json.toString('utf8')));
  } catch {
    return null;
  }
}
