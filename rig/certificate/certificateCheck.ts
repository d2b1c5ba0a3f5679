import type { CertificateData, ChainPlace } from '../../analysis/certificate/certificateData.ts';

/** Whether what was filed before this certificate is still what it was when this one was filed. */
export type ChainCheck = {
  readonly state: 'first' | 'holds' | 'broken' | 'not here';
  /** In words. */
  readonly text: string;
};

/**
 * Whether the certificate still speaks for its pump, as far as is known here. 'another': a different certificate bears its
 * number here. 'changed notice': a notice of its withdrawal is not as it was signed. 'not told': it is not filed here.
 */
export type StandingCheck = {
  readonly state: 'issued' | 'replaced' | 'withdrawn' | 'another' | 'changed notice' | 'not told';
  /** In words. */
  readonly text: string;
};

/** A file that is not as it was signed, or is no certificate. */
type NotWhole = { readonly state: 'changed' | 'not a certificate'; readonly path: string; readonly why: string };

type WholeFile = {
  readonly state: 'whole';
  readonly path: string;
  readonly number: string;
  readonly title: string;
  readonly outcome: CertificateData['outcome'];
  readonly isSpecimen: boolean;
  readonly issuedAtUtc: string;
  readonly signatory: string;
  readonly pumpName: string;
  readonly serialNumber: string;
  /** Of the data: printed on the certificate and in its code. */
  readonly jsonSha256: string;
  /** Of the PDF; null: it was read from its data. */
  readonly pdfSha256: string | null;
  readonly signedBy: { readonly subject: string; readonly certificateSha256: string };
  readonly replaces: CertificateData['replaces'];
  readonly cannotKnow: readonly string[];
};

/** What a file says of itself. Plain JSON. */
export type ReadCertificate =
  | {
      readonly whole: WholeFile;
      readonly place: ChainPlace;
      /** SHA-256 of the files that were read: the PDF; the data, where they lie in a file. Null: there was no such file. */
      readonly files: { readonly pdf: string | null; readonly json: string | null };
    }
  | NotWhole;

/** What verifying a file found. Plain JSON. */
export type CertificateCheck =
  | (WholeFile & {
      /** The key lies in this machine's key folder. */
      readonly isKeyKnown: boolean;
      readonly chain: ChainCheck;
      readonly standing: StandingCheck;
    })
  | NotWhole;
