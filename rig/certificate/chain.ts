import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { type ChainPlace, chainPlace } from '../../analysis/certificate/certificateData.ts';
import type { ChainCheck } from './certificateCheck.ts';
import { sha256Of } from './certificateFolder.ts';

const placeIn = z.looseObject(chainPlace);

/** Beyond so many certificates a chain is not walked back in one go [-]. */
const LONGEST_WALK = 1_000_000;

type Link =
  | { readonly state: 'holds'; readonly place: ChainPlace }
  | { readonly state: 'broken' | 'not here'; readonly text: string };

/** The chain of the certificates that lie in a folder; each file is read once however many certificates are asked about. */
export class CertificateChain {
  private readonly links = new Map<string, Link>();

  constructor(
    private readonly folder: string,
    private readonly longestWalk = LONGEST_WALK,
  ) {}

  /**
   * Whether everything that was filed before a certificate is still what it was, back to the first or as far as the files
   * lie here.
   *
   * @param place - what the certificate says was filed before it [-]
   */
  before(place: ChainPlace): ChainCheck {
    if (place.previous === null && place.notices.length === 0) {
      return { state: 'first', text: 'It is the first of its archive.' };
    }
    let at = place;
    for (let walked = 0; walked < this.longestWalk; walked += 1) {
      const link = this.link(at);
      const back = walked === 1 ? 'one certificate' : `${walked} certificates`;
      if (link.state !== 'holds') {
        const isAfterSome = link.state === 'not here' && walked > 0;
        return {
          state: link.state,
          text: isAfterSome ? `Of what was filed before it, ${back} held. ${link.text}` : link.text,
        };
      }
      if (link.place.previous === null && link.place.notices.length === 0) {
        return { state: 'holds', text: 'Everything filed before it, back to the first, is what it was.' };
      }
      at = link.place;
    }
    return { state: 'holds', text: `The ${this.longestWalk} certificates before it are what they were.` };
  }

  private link(place: ChainPlace): Link {
    const key = JSON.stringify(place);
    const known = this.links.get(key) ?? this.readLink(place);
    this.links.set(key, known);
    return known;
  }

  private readLink({ previous, notices }: ChainPlace): Link {
    const named = previous === null ? [] : [`${previous.number}.json`, `${previous.number}.pdf`];
    const certificates = named.filter((file) => existsSync(join(this.folder, file)));
    const present = notices.filter(({ file }) => existsSync(join(this.folder, file)));
    if (certificates.length === 0 && present.length === 0) {
      const text = `${previous?.number ?? notices[0]?.file}, filed before it, does not lie here.`;
      return { state: 'not here', text };
    }
    for (const { file, jsonSha256 } of present) {
      if (sha256Of(readFileSync(join(this.folder, file))) !== jsonSha256) return this.broken(file);
    }
    const missing = notices.find(({ file }) => !existsSync(join(this.folder, file)));
    if (missing !== undefined) {
      return { state: 'broken', text: `${missing.file}, a notice filed before this certificate, is missing.` };
    }
    if (previous === null) return { state: 'holds', place: { previous: null, notices: [] } };
    const [jsonFile = '', pdfFile = ''] = named;
    const json = certificates.includes(jsonFile) ? readFileSync(join(this.folder, jsonFile)) : null;
    if (json !== null && sha256Of(json) !== previous.jsonSha256) return this.broken(jsonFile);
    if (certificates.includes(pdfFile)) {
      const pdf = readFileSync(join(this.folder, pdfFile));
      if (sha256Of(pdf) !== previous.pdfSha256) return this.broken(pdfFile);
    }
    if (json === null) return { state: 'not here', text: `${jsonFile}, filed before it, does not lie here.` };
    // Its bytes are those that were signed, so they hold what a certificate holds; older ones name no notices.
    const before = placeIn.safeParse({ notices: [], ...JSON.parse(json.toString('utf8')) });
    return before.success ? { state: 'holds', place: before.data } : this.broken(jsonFile);
  }

  private broken(file: string): Link {
    return { state: 'broken', text: `${join(this.folder, file)} is not what it was when this certificate was filed.` };
  }
}
