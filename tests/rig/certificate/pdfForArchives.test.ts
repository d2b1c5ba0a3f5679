import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FiledCertificate } from '../../../rig/certificate/fileCertificate.ts';
import { fingerprintOf } from '../../../rig/certificate/keys.ts';
import { certificatePdf } from '../../../rig/certificate/pdf/certificatePdf.ts';
import { tagPdf } from '../../../rig/certificate/pdf/tagPdf.ts';
import { signPdf } from '../../../rig/certificate/signature/signPdf.ts';
import { dryLiftReadings } from '../../support/certificateRuns.ts';
import { type CertificateRig, certificateRig, fileOne, ISSUED_AT } from '../../support/filedCertificates.ts';
import { runOutsideTool } from '../../support/outsideTool.ts';
import { type PdfPart, pdfParts } from '../../support/pdfParts.ts';

/**
 * What PDF/A-3b asks of a file, so far as it can be read off its objects, beside the tools that are installed. Clauses of ISO
 * 19005-3:2012 are named from memory; a validator of that standard was not at hand.
 */

const FILES = ['A4', 'letter', 'tag'] as const;
type FileName = (typeof FILES)[number];

let folder: string;
let filed: FiledCertificate;
const pathOf = (name: FileName): string => join(folder, `${name}.pdf`);

async function onLetter(rig: CertificateRig, json: Buffer): Promise<Buffer> {
  const signer = { subject: rig.keys.certificate.subject, fingerprint: fingerprintOf(rig.keys.certificate) };
  const readings = { '20260611-drylift-1': dryLiftReadings() };
  return signPdf(
    await certificatePdf({ data: filed.data, json, signer, readings, paper: 'letter' }),
    rig.keys,
    ISSUED_AT,
  );
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'slipwright-pdf-'));
  const rig = await certificateRig();
  filed = await fileOne(rig);
  const json = readFileSync(filed.paths.json);
  writeFileSync(pathOf('A4'), readFileSync(filed.paths.pdf));
  writeFileSync(pathOf('letter'), await onLetter(rig, json));
  writeFileSync(pathOf('tag'), await tagPdf(filed.data, json));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.each(FILES)('to the tools of others, the file on %s', (name) => {
  it('has no fault in its structure that qpdf finds', () => {
    const qpdf = runOutsideTool('qpdf', ['--check', pathOf(name)]);
    if (qpdf !== null)
      expect(qpdf).toMatchObject({ exitCode: 0, output: expect.stringContaining('No syntax or stream') });
  });

  it('embeds every font, each with the Unicode of its letters, as pdffonts sees it', () => {
    const fonts = runOutsideTool('pdffonts', [pathOf(name)]);
    if (fonts === null) return;
    const rows = fonts.output.trim().split('\n').slice(2);
    expect(rows.length).toBeGreaterThanOrEqual(2);
    // Embedded, a subset, with Unicode.
    for (const row of rows) expect(row).toMatch(/ yes yes yes +\d+ +0$/);
  });
});

it.each(['A4', 'letter'] as const)('pdfdetach lists one attachment on %s, and takes the very data out', (name) => {
  const list = runOutsideTool('pdfdetach', ['-list', pathOf(name)]);
  if (list === null) return;
  expect(list.output).toContain('1 embedded files');
  const out = join(folder, `${name}.json`);
  expect(runOutsideTool('pdfdetach', ['-save', '1', '-o', out, pathOf(name)])?.exitCode).toBe(0);
  expect(readFileSync(out).equals(readFileSync(filed.paths.json))).toBe(true);
});

describe.each(FILES)('PDF/A-3b, the file on %s', (name) => {
  let file: Buffer;
  let parts: readonly PdfPart[];
  const withText = (pattern: RegExp): readonly PdfPart[] => parts.filter(({ text }) => pattern.test(text));
  const only = (pattern: RegExp): PdfPart => {
    const found = withText(pattern);
    const [first] = found;
    if (first === undefined || found.length > 1) throw new Error(`${pattern}: expected one, got ${found.length}`);
    return first;
  };
  const referred = (text: string, key: string): PdfPart => {
    const number = Number(new RegExp(`/${key} \\[?(\\d+) 0 R`).exec(text)?.[1]);
    const found = parts.find((part) => part.number === number);
    if (found === undefined) throw new Error(`${key}: leads to no object`);
    return found;
  };
  beforeAll(() => {
    file = readFileSync(pathOf(name));
    parts = pdfParts(file);
  });

  it('begins with the version and four bytes that are no text, and ends at %%EOF (6.1.2, 6.1.3)', () => {
    expect(file.toString('latin1', 0, 16)).toMatch(/^%PDF-1\.[0-7]\n%[\x80-\xff]{4}\n/);
    expect(file.toString('latin1')).toMatch(/%%EOF\n?$/);
  });

  it('has an ID in its trailer and is not encrypted (6.1.3)', () => {
    const trailer = file.toString('latin1', file.lastIndexOf('\ntrailer\n'));
    expect(trailer).toMatch(/\/ID \[<[0-9a-f]{32}> <[0-9a-f]{32}>\]/);
    expect(trailer).not.toContain('/Encrypt');
  });

  it('packs nothing by LZW or by a filter of its own, and keeps no stream outside the file (6.1.7)', () => {
    const filters = parts.flatMap(({ text, stream }) =>
      stream === null ? [] : (/\/Filter \/?(.+)/.exec(text)?.[1] ?? []),
    );
    expect(new Set(filters)).toEqual(new Set(['FlateDecode']));
    for (const { text, stream } of parts) if (stream !== null) expect(text).not.toMatch(/\/(?:F|FFilter) [(<]/);
  });

  it('has an output intent with an RGB profile in the file, and no other colours than such and grey (6.2.3, 6.2.4)', () => {
    const intent = referred(only(/\/Type \/Catalog/).text, 'OutputIntents');
    expect(intent.text).toContain('/S /GTS_PDFA1');
    const { stream, text } = referred(intent.text, 'DestOutputProfile');
    // ICC.1, 7.2: at 12 the class, at 16 the colours, at 36 'acsp'.
    const at = (from: number): string | undefined => stream?.toString('latin1', from, from + 4);
    expect([at(12), at(16), at(36)]).toEqual(['mntr', 'RGB ', 'acsp']);
    expect(text).toContain('/N 3');
    const contents = withText(/\/Type \/Page\n/).map((page) =>
      referred(page.text, 'Contents').stream?.toString('latin1'),
    );
    const drawn = contents.join('\n');
    expect(drawn).toMatch(/\/DeviceRGB cs/);
    expect(drawn).not.toMatch(/DeviceCMYK|\d [kK]\n/);
  });

  it('draws with fonts of the file alone (6.2.11.4)', () => {
    const fonts = withText(/\/Type \/Font\n/);
    const descriptors = withText(/\/Type \/FontDescriptor/);
    expect(descriptors.length).toBeGreaterThan(0);
    for (const { text } of descriptors) {
      const font = referred(text, 'FontFile2').stream?.toString('latin1');
      // TrueType (its reference manual allows both beginnings), with the shapes of its letters in it.
      expect(['\x00\x01\x00\x00', 'true']).toContain(font?.slice(0, 4));
      expect(font).toContain('glyf');
    }
    const descendants = fonts.filter(({ text }) => text.includes('/Subtype /CIDFontType2'));
    expect(fonts.filter(({ text }) => text.includes('/Subtype /Type0'))).toHaveLength(descendants.length);
    expect(fonts).toHaveLength(2 * descendants.length);
    // 6.2.11.3.2: how characters find their shapes is said.
    for (const { text } of descendants) expect(text).toMatch(/\/CIDToGIDMap \/Identity/);
    for (const { text } of descendants) expect(descriptors).toContain(referred(text, 'FontDescriptor'));
  });

  it('shows every annotation in print and hides none; one that can be seen has an appearance (6.3.2, 6.3.3)', () => {
    const annotations = withText(/\/Type \/Annot\n/);
    // A certificate has its signature, a tag nothing.
    expect(annotations).toHaveLength(name === 'tag' ? 0 : 1);
    for (const { text } of annotations) {
      const flags = Number(/\/F (\d+)/.exec(text)?.[1]);
      // Invisible 1, hidden 2, print 4, no view 32, toggle no view 256.
      expect([flags & 4, flags & (1 | 2 | 32 | 256)]).toEqual([4, 0]);
      // Only one without any area may do without.
      expect(text).toMatch(/\/AP <<|\/Rect \[0 0 0 0\]/);
    }
  });

  it('does nothing when it is opened or clicked, and its form is as it is drawn (6.4.1, 6.5.1)', () => {
    for (const { text } of parts) {
      expect(text).not.toMatch(/\/(?:OpenAction|AA|JavaScript|JS|Launch|XFA|RichMedia|Movie|Sound)\b/);
      expect(text).not.toMatch(/\/NeedAppearances true/);
    }
  });

  it('says in plain metadata that it is PDF/A, part 3, conformance B (6.6.2.1, 6.6.4)', () => {
    const { text, stream } = referred(only(/\/Type \/Catalog/).text, 'Metadata');
    expect(text).not.toContain('/Filter');
    const xmp = stream?.toString('utf8') ?? '';
    expect(xmp).toMatch(/xmlns:pdfaid="http:\/\/www\.aiim\.org\/pdfa\/ns\/id\/"/);
    expect(xmp).toMatch(/<pdfaid:part>3<\/pdfaid:part>\s*<pdfaid:conformance>B<\/pdfaid:conformance>/);
    expect(xmp).toContain(filed.number);
  });

  it('says of an attachment what it is to the document, and when it was made (6.8)', () => {
    const specifications = withText(/\/Type \/Filespec/);
    expect(specifications).toHaveLength(name === 'tag' ? 0 : 1);
    for (const { number, text } of specifications) {
      expect(only(/\/Type \/Catalog/).text).toContain(`/AF [${number} 0 R]`);
      expect(text).toMatch(/\/AFRelationship \/Data\n/);
      expect(text).toMatch(/\/F \(.+\.json\)\n[\s\S]*\/UF \(.+\.json\)/);
      const embedded = only(/\/Type \/EmbeddedFile/);
      expect(embedded.text).toContain('/Subtype /application#2Fjson');
      expect(embedded.text).toMatch(/\/ModDate \(D:\d{14}Z\)/);
      expect(embedded.stream?.equals(readFileSync(filed.paths.json))).toBe(true);
    }
  });
});
