import { join } from 'node:path';
import type { ChainPlace } from '../../analysis/certificate/certificateData.ts';
import type { ChainCheck } from './certificateCheck.ts';
import type { FilesRead } from './filesRead.ts';

/** Beyond so many certificates a chain is not walked back in one go [-]. */
const LONGEST_WALK = 1_000_000;

type Link =
  | { readonly state: 'holds'; readonly place: ChainPlace }
  | { readonly state: 'broken' | 'not here'; readonly text: string };

/** How far back everything holds from a place in the chain, and what is there. */
type End = {
  readonly state: 'first' | 'broken' | 'not here';
  readonly text: string;
  /** Certificates that hold, between that place and its end [-]. */
  readonly walked: number;
};

function isFirst({ previous, notices }: ChainPlace): boolean {
  return previous === null && notices.length === 0;
}

/** The chain of the certificates that lie in a folder; each link is looked at once however many certificates are asked about. */
export class CertificateChain {
  /** By the place that they were walked from, as text. */
  private readonly ends = new Map<string, End>();

  constructor(
    private readonly folder: string,
    private readonly files: FilesRead,
    private readonly longestWalk = LONGEST_WALK,
  ) {}

  /**
   * Whether everything that was filed before a certificate is still what it was, back to the first or as far as the files
   * lie here.
   *
   * @param place - what the certificate says was filed before it [-]
   */
  before(place: ChainPlace): ChainCheck {
    if (isFirst(place)) return { state: 'first', text: 'It is the first of its archive.' };
    const end = this.endOf(place);
    if (end === null) {
      return { state: 'holds', text: `The ${this.longestWalk} certificates before it are what they were.` };
    }
    if (end.state === 'first') {
      return { state: 'holds', text: 'Everything filed before it, back to the first, is what it was.' };
    }
    const back = end.walked === 1 ? 'one certificate' : `${end.walked} certificates`;
    const isAfterSome = end.state === 'not here' && end.walked > 0;
    return {
      state: end.state,
      text: isAfterSome ? `Of what was filed before it, ${back} held. ${end.text}` : end.text,
    };
  }

  /** Null: it was not come to in as many steps as are allowed. */
  private endOf(place: ChainPlace): End | null {
    const passed: string[] = [];
    let at = place;
    let end: End | undefined;
    while (end === undefined) {
      if (passed.length >= this.longestWalk) return null;
      const key = JSON.stringify(at);
      end = this.ends.get(key);
      if (end !== undefined) break;
      passed.push(key);
      const link = this.readLink(at);
      if (link.state !== 'holds') end = { ...link, walked: -1 };
      else if (isFirst(link.place)) end = { state: 'first', text: '', walked: -1 };
      else at = link.place;
    }
    for (const key of passed.reverse()) {
      end = { ...end, walked: end.walked + 1 };
      this.ends.set(key, end);
    }
    return end;
  }

  private readLink({ previous, notices }: ChainPlace): Link {
    const read = (file: string) => this.files.read(join(this.folder, file));
    const noticeFacts = notices.map(({ file, jsonSha256 }) => ({ file, jsonSha256, facts: read(file) }));
    const json = previous === null ? null : read(`${previous.number}.json`);
    const pdf = previous === null ? null : read(`${previous.number}.pdf`);
    if (json === null && pdf === null && noticeFacts.every(({ facts }) => facts === null)) {
      const text = `${previous?.number ?? notices[0]?.file}, filed before it, does not lie here.`;
      return { state: 'not here', text };
    }
    for (const { file, jsonSha256, facts } of noticeFacts) {
      if (facts !== null && facts.sha256 !== jsonSha256) return this.broken(file);
    }
    const missing = noticeFacts.find(({ facts }) => facts === null);
    if (missing !== undefined) {
      return { state: 'broken', text: `${missing.file}, a notice filed before this certificate, is missing.` };
    }
    if (previous === null) return { state: 'holds', place: { previous: null, notices: [] } };
    const { number, jsonSha256, pdfSha256 } = previous;
    if (json !== null && json.sha256 !== jsonSha256) return this.broken(`${number}.json`);
    if (pdf !== null && pdf.sha256 !== pdfSha256) return this.broken(`${number}.pdf`);
    if (json === null) return { state: 'not here', text: `${number}.json, filed before it, does not lie here.` };
    // Its bytes are those that were signed, so they hold what a certificate holds.
    if (json.data === null) return this.broken(`${number}.json`);
    return { state: 'holds', place: { previous: json.data.previous, notices: json.data.notices } };
  }

  private broken(file: string): Link {
    return { state: 'broken', text: `${join(this.folder, file)} is not what it was when this certificate was filed.` };
  }
}
