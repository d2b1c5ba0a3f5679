import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readAttachment, readSignedPdf } from '../../../rig/certificate/signature/readSignedPdf.ts';
import { verifyCms } from '../../../rig/certificate/signature/verifyCms.ts';
import { FileVerifier, verifyCertificate } from '../../../rig/certificate/verifyCertificate.ts';
import { deliveryRun } from '../../support/certificateRuns.ts';
import { type CertificateRig, certificateRig, fileOne } from '../../support/filedCertificates.ts';

/** More than are read without threads. */
const MANY = 230;

let rig: CertificateRig;
let folder: string;
const pdfs: string[] = [];

beforeAll(async () => {
  rig = await certificateRig();
  folder = mkdtempSync(join(tmpdir(), 'slipwright-many-'));
  for (let index = 0; index < 3; index += 1) pdfs.push((await fileOne(rig)).paths.pdf);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Copies of one certificate, each under a name of its own. */
function copies(): readonly string[] {
  const [first = ''] = pdfs;
  return Array.from({ length: MANY }, (_, index) => {
    const path = join(folder, `${index}.pdf`);
    copyFileSync(first, path);
    return path;
  });
}

describe('many certificates at once', () => {
  it('are found as one by one, each in its place, a changed one among them', async () => {
    const paths = copies();
    const changed = readFileSync(paths[117] ?? '');
    changed.writeUInt8(changed.readUInt8(4_000) ^ 1, 4_000);
    writeFileSync(paths[117] ?? '', changed);
    const checks = await new FileVerifier(new Set()).verifyAll(paths);
    expect(checks.map(({ path }) => path)).toEqual(paths);
    expect(checks.flatMap(({ state }, index) => (state === 'whole' ? [] : [index]))).toEqual([117]);
    const alone = new FileVerifier(new Set());
    for (const index of [0, 116, 117, 229]) expect(checks[index]).toEqual(alone.verify(paths[index] ?? ''));
  });

  it('are not found at all where one cannot be read, and that one is named', async () => {
    const missing = join(folder, 'nowhere.pdf');
    const verified = new FileVerifier(new Set()).verifyAll([...copies(), missing]);
    await expect(verified).rejects.toMatchObject({ code: 'CERTIFICATE_FILE', path: missing });
  });
});

describe('a chain of certificates that are verified together', () => {
  it('is walked as far as for each by itself', async () => {
    const together = await new FileVerifier(new Set()).verifyAll(pdfs);
    expect(together).toEqual(pdfs.map((path) => verifyCertificate(path, new Set())));
    expect(together.map((check) => (check.state === 'whole' ? check.chain.state : check.state))).toEqual([
      'first',
      'holds',
      'holds',
    ]);
  });
});

describe('a second signature by a signer whose first one was taken apart', () => {
  it('is refused with a byte of it turned, and over anything else than it signs', () => {
    const [first, second] = pdfs.map((path) => readSignedPdf(readFileSync(path)));
    if (first === undefined || first === null || second === undefined || second === null) throw new Error('not signed');
    for (const { signature, coveredSha256 } of [first, second]) {
      expect(verifyCms(signature, coveredSha256)?.raw.equals(rig.keys.certificate.raw)).toBe(true);
    }
    expect(verifyCms(second.signature, first.coveredSha256)).toBeNull();
    for (let at = 0; at < second.signature.length; at += 3) {
      const turned = Buffer.from(second.signature);
      turned.writeUInt8(turned.readUInt8(at) ^ (1 << (at % 8)), at);
      expect(verifyCms(turned, second.coveredSha256), `byte ${at}`).toBeNull();
    }
  });
});

describe('what is read of a PDF', () => {
  it('is found by its table: words of a certificate that look like parts of a PDF lead nowhere else', async () => {
    const words = '/ByteRange [0 1 2 3]\n<<\n/Type /EmbeddedFile\n/Length 5\n>>\nstream\n%%EOF trailer startxref 0';
    const plain = deliveryRun();
    const run = { ...plain.run, pump: { ...plain.run.pump, remarks: words } };
    const { paths } = await fileOne(rig, [{ ...plain, run }]);
    expect(verifyCertificate(paths.pdf, new Set()).state).toBe('whole');
    const attached = readAttachment(readFileSync(paths.pdf));
    expect(readFileSync(paths.json).equals(attached ?? Buffer.alloc(0))).toBe(true);
  });

  it('is named cut short where its end is gone', () => {
    const [first = ''] = pdfs;
    const path = join(folder, 'short.pdf');
    const bytes = readFileSync(first);
    for (const length of [10, 5_000, bytes.length - 1]) {
      writeFileSync(path, bytes.subarray(0, length));
      expect(verifyCertificate(path, new Set())).toMatchObject({
        state: 'changed',
        why: expect.stringContaining('cut short'),
      });
    }
  });
});
