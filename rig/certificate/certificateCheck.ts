import type { CertificateData } from '../../analysis/certificate/certificateData.ts';

/** Whether the certificate before this one is still what it was when this one was filed. */
export type ChainCheck = {
  readonly state: 'first' | 'holds' | 'broken' | 'not here';
  /** In words. */
  readonly text: string;
};

/** What verifying a file found. Plain JSON. */
export type CertificateCheck =
  | {
      readonly state: 'whole';
      readonly path: string;
      readonly number: string;
      readonly title: string;
      readonly outcome: CertificateData['outcome'];
      readonly isSpecimen: boolean;
      readonly issuedAtUtc: string;
      readonly signatory: string;
      readonly pumpName: string;
      readonly signedBy: { readonly subject: string; readonly certificateSha256: string };
      /** The key lies in this machine's key folder. */
      readonly isKeyKnown: boolean;
      readonly chain: ChainCheck;
      readonly cannotKnow: readonly string[];
    }
  | { readonly state: 'changed' | 'not a certificate'; readonly path: string; readonly why: string };
