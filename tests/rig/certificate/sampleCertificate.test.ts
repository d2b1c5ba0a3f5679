import { readFileSync, writeFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import jsQR from 'jsqr';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { certificateData } from '../../../analysis/certificate/certificateData.ts';
import { certificateJsonSchema } from '../../../analysis/certificate/certificateJsonSchema.ts';
import type { Archive } from '../../../rig/archive/openArchive.ts';
import { sha256Of } from '../../../rig/certificate/certificateFolder.ts';
import type { FiledCertificate } from '../../../rig/certificate/fileCertificate.ts';
import { filedTag } from '../../../rig/certificate/filedTag.ts';
import { runOutsideTool } from '../../support/outsideTool.ts';
import { fileSample, sampleArchive } from '../../support/sampleCertificate.ts';

const PUBLISHED = new URL('../../../samples/schemas/certificate.schema.json', import.meta.url);

let archive: Archive;
let filed: FiledCertificate;
let letter: FiledCertificate;
let text: string | null;

beforeAll(async () => {
  archive = sampleArchive();
  filed = await fileSample(archive, {
    handover: {
      runInTimeS: 9000,
      preservative: 'rust-preventing oil (invented), ports plugged',
      isSealedAsTested: true,
      remarks: '',
    },
  });
  letter = await fileSample(archive, { paper: 'letter', replaces: { number: filed.number, reason: 'other paper' } });
  const words = runOutsideTool('pdftotext', ['-raw', filed.paths.pdf, '-']);
  // Lines are broken where they are full: for the eye that searches, a break is a space.
  text = words === null ? null : words.output.replace(/\s+/g, ' ');
});
afterAll(() => archive.close());

/** A picture as netpbm writes it: P6, width, height, 255, then red, green, blue of each dot. */
function pictureOf(ppm: Buffer): { readonly rgba: Uint8ClampedArray; readonly width: number; readonly height: number } {
  const [head = '', width = '', height = ''] = /^P6\s+(\d+)\s+(\d+)\s+255\s/.exec(ppm.toString('latin1', 0, 40)) ?? [];
  const rgb = ppm.subarray(head.length);
  const rgba = new Uint8ClampedArray(Number(width) * Number(height) * 4).fill(255);
  for (let dot = 0; dot < Number(width) * Number(height); dot += 1)
    rgba.set(rgb.subarray(3 * dot, 3 * dot + 3), 4 * dot);
  return { rgba, width: Number(width), height: Number(height) };
}

function codeOn(pdf: string): string | null {
  const drawn = runOutsideTool('pdftoppm', ['-r', '150', '-f', '1', '-l', '1', '-singlefile', pdf, `${pdf}.page`]);
  if (drawn === null) return null;
  const { rgba, width, height } = pictureOf(readFileSync(`${pdf}.page.ppm`));
  return jsQR.default(rgba, width, height)?.data ?? 'nothing that can be read';
}

describe("the sample pump's certificate, in print", () => {
  it('says on paper what must be known in thirty years', () => {
    if (text === null) return;
    for (const words of [
      'clockwise, seen on the shaft end',
      'Speaks for the pump as sealed on this day; void if opened or re-gasketed.',
      'those it was tested with go into the machine',
      '2.5 h',
      'rust-preventing oil (invented), ports plugged',
      'arrow for the rotation, cast on the body',
      'Holds of run 2026-11-26-0002',
      'slip by sheet',
      'Worked once, in SI: Hold 13',
      'm³/rev',
      '68.00 mm²/s at 40.0 °C, 8.700 mm²/s at 100 °C',
      '875.0 kg/m³ at 15 °C',
      'W1: oiled at assembly with a measured dose',
      'paper, 0.120 mm thick, 0.020 mm taken off by tightening',
      'body cast iron, gears steel, bushes bronze',
      'cover studs M8 (6, tab washer)',
      'suction pressure,',
      'at the height of the inlet',
      "origin: machine's own calculation",
      'probability over 99.9 %',
      'guard band as wide as the expanded uncertainty',
      'Efficiency q/(V',
      'Slip agrees with the strip sheet in 14 of 14 holds.',
      'Head of the chain when it was issued: none',
      'not a safety device',
      sha256Of(readFileSync(filed.paths.json)),
    ]) {
      expect(text, words).toContain(words);
    }
  });

  it('prints every hold', () => {
    if (text === null) return;
    const [delivery] = filed.data.delivery;
    expect(delivery?.holds).toHaveLength(14);
    for (const { number, flowM3PerS } of delivery?.holds ?? []) {
      expect(text, `hold ${number}`).toContain((60_000 * flowM3PerS.value).toFixed(3));
    }
  });

  it.each(['A4', 'letter'])('takes three pages of %s at most, each of that size', (paper) => {
    const { paths } = paper === 'A4' ? filed : letter;
    const info = runOutsideTool('pdfinfo', ['-f', '1', '-l', '9', paths.pdf]);
    if (info === null) return;
    expect(info.output).toMatch(/Pages: +3\n/);
    // ISO 216: 210 × 297 mm; US Letter: 8.5 × 11 in.
    const size = paper === 'A4' ? '595.276 x 841.89' : '612 x 792';
    const sizes = [...info.output.matchAll(/Page +\d+ size: +(\S+ x \S+) pts/g)].map(([, found]) => found);
    expect(sizes).toEqual([size, size, size]);
  });

  it('carries a code that a reader of others reads: number and hash of the data', () => {
    const read = codeOn(filed.paths.pdf);
    if (read === null) return;
    const hash = sha256Of(readFileSync(filed.paths.json));
    expect(read).toBe(`slipwright certificate ${filed.number} sha256 ${hash}`);
  });

  it('names the one whose place it takes, and why', () => {
    const words = runOutsideTool('pdftotext', [letter.paths.pdf, '-']);
    if (words !== null) expect(words.output).toContain(`Takes the place of certificate ${filed.number}: other paper`);
    expect(letter.data.replaces?.jsonSha256).toBe(sha256Of(readFileSync(filed.paths.json)));
  });
});

describe('its data', () => {
  it('fit the published JSON Schema, which refuses a number without its unit', () => {
    const schema: unknown = JSON.parse(readFileSync(PUBLISHED, 'utf8'));
    expect(schema).toEqual(certificateJsonSchema());
    const isValid = new Ajv2020({ allErrors: true, formats: { 'date-time': true, date: true } }).compile(
      certificateJsonSchema(),
    );
    const data: unknown = JSON.parse(readFileSync(filed.paths.json, 'utf8'));
    expect(isValid(data), JSON.stringify(isValid.errors)).toBe(true);
    expect(isValid({ ...filed.data, theory: { ...filed.data.theory, sweptVolume: 1 } })).toBe(false);
    expect(isValid({ ...filed.data, number: '1' })).toBe(false);
  });

  it('can be read where they lack what was added to certificates later', () => {
    const later = ['replaces', 'notices', 'asBuilt', 'handover', 'furtherRuns'];
    const old = Object.fromEntries(Object.entries(filed.data).filter(([key]) => !later.includes(key)));
    expect(certificateData.parse(old)).toMatchObject({ replaces: null, notices: [], asBuilt: [], handover: null });
  });
});

describe('its tie-on tag', () => {
  it('is a page of A7 with the same code, the same bytes each time', async () => {
    const tag = await filedTag(archive.directory, filed.number);
    expect(tag.equals(await filedTag(archive.directory, filed.number))).toBe(true);
    const path = `${filed.paths.pdf}.tag.pdf`;
    writeFileSync(path, tag);
    const info = runOutsideTool('pdfinfo', [path]);
    if (info !== null) {
      expect(info.output).toMatch(/Pages: +1\n/);
      // ISO 216, A7: 74 × 105 mm.
      expect(info.output).toContain('297.638 x 209.764');
    }
    const hash = sha256Of(readFileSync(filed.paths.json));
    const read = codeOn(path);
    if (read !== null) expect(read).toBe(`slipwright certificate ${filed.number} sha256 ${hash}`);
  });

  it('is refused for a number that is not filed', async () => {
    await expect(filedTag(archive.directory, '1999-0001')).rejects.toMatchObject({ code: 'UNKNOWN_CERTIFICATE' });
  });
});
