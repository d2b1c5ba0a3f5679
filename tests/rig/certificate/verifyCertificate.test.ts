import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { parseMembers } from '../../../rig/archive/jsonMembers.ts';
import { CertificateFileError } from '../../../rig/certificate/certificateErrors.ts';
import type { FiledCertificate } from '../../../rig/certificate/fileCertificate.ts';
import { fingerprintOf, knownFingerprints } from '../../../rig/certificate/keys.ts';
import { certificatePdf } from '../../../rig/certificate/pdf/certificatePdf.ts';
import { signJws } from '../../../rig/certificate/signature/jws.ts';
import { signPdf } from '../../../rig/certificate/signature/signPdf.ts';
import { verifyCertificate } from '../../../rig/certificate/verifyCertificate.ts';
import { coveredPositions, isWholeToPdfsig, unnoticedFlips } from '../../flips/flippedBytes.ts';
import { deliveryRun, dryLiftRun } from '../../support/certificateRuns.ts';
import { type CertificateRig, certificateRig, fileOne, ISSUED_AT } from '../../support/filedCertificates.ts';
import { uniform } from '../../support/random.ts';

const SEED = 20260612;
const FLIPS = 250;
const FLIPS_BY_PDFSIG = 20;

let rig: CertificateRig;
let filed: FiledCertificate;
let known: ReadonlySet<string>;

beforeAll(async () => {
  rig = await certificateRig();
  filed = await fileOne(rig);
  known = knownFingerprints(rig.keyFolder);
});

/** Copies of a certificate's files in a folder of their own, so that each test may spoil them. */
function copies(): { readonly pdf: string; readonly json: string; readonly jws: string } {
  const folder = mkdtempSync(join(tmpdir(), 'slipwright-verify-'));
  const at = (ending: 'pdf' | 'json' | 'jws') => {
    const path = join(folder, `${filed.number}.${ending}`);
    copyFileSync(filed.paths[ending], path);
    return path;
  };
  return { pdf: at('pdf'), json: at('json'), jws: at('jws') };
}

/** Both ends and a seeded sample between them. */
function positions(length: number): readonly number[] {
  const random = uniform(SEED);
  const sample = Array.from({ length: FLIPS }, () => Math.floor(random() * length));
  return [0, 1, length - 2, length - 1, ...sample];
}

function flipped(bytes: Buffer, position: number, mask: number): Buffer {
  const other = Buffer.from(bytes);
  other[position] = (other[position] ?? 0) ^ mask;
  return other;
}

describe('verifying a certificate that nobody touched', () => {
  it('finds the PDF whole, by itself, and its key known', async () => {
    const { pdf, json, jws } = copies();
    rmSync(json);
    rmSync(jws);
    expect(verifyCertificate(pdf, known)).toMatchObject({
      state: 'whole',
      number: '2026-0001',
      outcome: 'pass',
      isSpecimen: false,
      isKeyKnown: true,
      chain: { state: 'first' },
      signedBy: { certificateSha256: fingerprintOf(rig.keys.certificate) },
    });
  });

  it('finds the JSON whole by the signature beside it', async () => {
    expect(verifyCertificate(copies().json, known)).toMatchObject({ state: 'whole', isKeyKnown: true });
  });

  it('reads a few members of its data and not the whole, since they are laid out for that', () => {
    const parts = z.object({ number: z.string(), notices: z.array(z.unknown()) });
    expect(parseMembers(parts, readFileSync(filed.paths.json))).toEqual({ number: '2026-0001', notices: [] });
  });

  it('says that a key is not known here', async () => {
    for (const path of [copies().pdf, copies().json]) {
      expect(verifyCertificate(path, new Set())).toMatchObject({ state: 'whole', isKeyKnown: false });
    }
  });

  it('says what it cannot know', async () => {
    const check = verifyCertificate(copies().pdf, known);
    expect(check).toMatchObject({ cannotKnow: expect.arrayContaining([expect.stringContaining('withdrawn')]) });
  });

  it('knows a specimen', async () => {
    const other = await certificateRig();
    const { paths } = await fileOne(other, [deliveryRun({ isPractice: true }), dryLiftRun()]);
    expect(verifyCertificate(paths.pdf, known)).toMatchObject({ isSpecimen: true, isKeyKnown: false });
  });
});

describe('verifying a certificate that was changed', () => {
  it(`never finds a PDF whole with one bit flipped (seed ${SEED})`, async () => {
    const { pdf, json } = copies();
    rmSync(json);
    const bytes = readFileSync(pdf);
    for (const [index, position] of positions(bytes.length).entries()) {
      writeFileSync(pdf, flipped(bytes, position, 1 << (index % 8)));
      expect(verifyCertificate(pdf, known).state, `byte ${position}`).not.toBe('whole');
    }
  });

  it('never finds a PDF whole with a bit flipped anywhere near its signature', async () => {
    const { pdf, json } = copies();
    rmSync(json);
    const bytes = readFileSync(pdf);
    const contents = bytes.indexOf('/Contents <');
    // The signature fills about 1,800 hexadecimal digits; behind it stand zeros up to 8,192.
    const near = Array.from({ length: 1_200 }, (_, step) => contents - 100 + step * 7);
    for (const [index, position] of near.entries()) {
      writeFileSync(pdf, flipped(bytes, position, 1 << (index % 8)));
      expect(verifyCertificate(pdf, known).state, `byte ${position}`).not.toBe('whole');
    }
  });

  it(`never finds the data whole with one bit flipped in them or in their signature (seed ${SEED})`, async () => {
    const { json, jws } = copies();
    for (const path of [json, jws]) {
      const bytes = readFileSync(path);
      for (const [index, position] of positions(bytes.length).entries()) {
        writeFileSync(path, flipped(bytes, position, 1 << (index % 8)));
        expect(verifyCertificate(json, known).state, `${path}, byte ${position}`).toBe('changed');
      }
      writeFileSync(path, bytes);
    }
  });

  // `npm run flips` has pdfsig look at more of them.
  it(`is seen by pdfsig too, wherever one bit of the signed range was flipped (seed ${SEED})`, () => {
    const { pdf } = copies();
    const bytes = readFileSync(pdf);
    const isWhole = isWholeToPdfsig(bytes, pdf);
    if (isWhole === null) return; // said aloud: pdfsig is not installed
    expect(isWhole).toBe(true);
    const sample = [0, ...coveredPositions(bytes, FLIPS_BY_PDFSIG, uniform(SEED)), bytes.length - 1];
    expect(unnoticedFlips(bytes, () => isWholeToPdfsig(bytes, pdf) === true, sample)).toEqual([]);
  });

  it('finds a PDF changed when it was cut short or added to', async () => {
    const { pdf } = copies();
    const bytes = readFileSync(pdf);
    for (const length of [0, 1, 100, 8_000, Math.floor(bytes.length / 2), bytes.length - 1]) {
      writeFileSync(pdf, bytes.subarray(0, length));
      expect(verifyCertificate(pdf, known).state, `${length} bytes`).not.toBe('whole');
    }
    for (const more of ['\n', ' ', '\n1 0 obj\n<<>>\nendobj\n%%EOF\n', bytes]) {
      writeFileSync(pdf, Buffer.concat([bytes, Buffer.from(more)]));
      expect(verifyCertificate(pdf, known).state).toBe('changed');
    }
  });

  it('finds a PDF changed whose signature is written in capitals', async () => {
    const { pdf } = copies();
    const bytes = readFileSync(pdf);
    const contents = bytes.indexOf('/Contents <') + '/Contents <'.length;
    bytes.write(bytes.toString('latin1', contents, contents + 200).toUpperCase(), contents, 'latin1');
    writeFileSync(pdf, bytes);
    expect(verifyCertificate(pdf, known).state).toBe('changed');
  });

  it('finds a PDF changed when the data beside it are other ones', async () => {
    const { pdf, json } = copies();
    writeFileSync(json, readFileSync(json, 'utf8').replace('"pass"', '"fail"'));
    expect(verifyCertificate(pdf, known)).toMatchObject({
      state: 'changed',
      why: expect.stringContaining(json),
    });
  });

  it('finds data changed when they are written again, though they say the same', async () => {
    const { json } = copies();
    writeFileSync(json, JSON.stringify(JSON.parse(readFileSync(json, 'utf8'))));
    expect(verifyCertificate(json, known).state).toBe('changed');
  });

  it('finds data changed whose signature is missing or belongs to others', async () => {
    const { json, jws } = copies();
    writeFileSync(jws, await signJws(Buffer.from('something else'), rig.keys));
    expect(verifyCertificate(json, known).state).toBe('changed');
    rmSync(jws);
    expect(verifyCertificate(json, known)).toMatchObject({ state: 'changed', why: expect.stringContaining(jws) });
  });

  it('does not know the key of a forger who signs the same data', async () => {
    const { pdf } = copies();
    const forger = await certificateRig();
    const signer = { subject: forger.keys.certificate.subject, fingerprint: fingerprintOf(rig.keys.certificate) };
    const json = readFileSync(filed.paths.json);
    const forged = await certificatePdf({ data: filed.data, json, signer, readings: {} });
    writeFileSync(pdf, await signPdf(forged, forger.keys, ISSUED_AT));
    expect(verifyCertificate(pdf, known)).toMatchObject({ state: 'whole', isKeyKnown: false });
  });
});

describe('verifying what is no certificate', () => {
  it('says so of a PDF without a signature, and of anything else', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'slipwright-verify-'));
    for (const [name, content] of [
      ['plain.pdf', '%PDF-1.7\n%%EOF\n'],
      ['plain.json', '{"format":"something else"}'],
      ['broken.json', '{'],
      ['picture.png', 'x'],
    ] as const) {
      writeFileSync(join(folder, name), content);
      expect(verifyCertificate(join(folder, name), known).state, name).toBe('not a certificate');
    }
  });

  it('says so of signed data that are no certificate', async () => {
    const { json, jws } = copies();
    writeFileSync(json, '{}');
    writeFileSync(jws, await signJws(Buffer.from('{}'), rig.keys));
    expect(verifyCertificate(json, known).state).toBe('not a certificate');
  });

  it('says so of a signed PDF with something else attached', async () => {
    const { pdf, json } = copies();
    rmSync(json);
    const signer = { subject: 'x', fingerprint: 'y' };
    const other = await certificatePdf({ data: filed.data, json: Buffer.from('{}'), signer, readings: {} });
    writeFileSync(pdf, await signPdf(other, rig.keys, ISSUED_AT));
    expect(verifyCertificate(pdf, known).state).toBe('not a certificate');
  });

  it('throws only where the file cannot be read', async () => {
    expect(() => verifyCertificate('/nowhere/at/all.pdf', known)).toThrow(CertificateFileError);
  });
});

describe('the chain', () => {
  it('holds, breaks with the certificate before, and says when that one is not here', async () => {
    const own = await certificateRig();
    const first = await fileOne(own);
    const second = await fileOne(own);
    const chain = async (path: string) => verifyCertificate(path, known);
    expect(await chain(second.paths.pdf)).toMatchObject({ state: 'whole', chain: { state: 'holds' } });
    writeFileSync(first.paths.json, `${readFileSync(first.paths.json, 'utf8')} `);
    expect(await chain(second.paths.json)).toMatchObject({ state: 'whole', chain: { state: 'broken' } });
    rmSync(first.paths.json);
    rmSync(first.paths.pdf);
    expect(await chain(second.paths.pdf)).toMatchObject({ state: 'whole', chain: { state: 'not here' } });
  });
});
