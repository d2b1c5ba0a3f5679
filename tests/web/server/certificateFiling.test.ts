import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FiledCertificate } from '../../../rig/certificate/fileCertificate.ts';
import { certificateFiling } from '../../../web/server/certificateFiling.ts';
import { type CertificateRig, certificateRig, fileOne } from '../../support/filedCertificates.ts';

let rig: CertificateRig;
let filed: FiledCertificate;
const keysBefore = process.env.SLIPWRIGHT_KEYS;

beforeAll(async () => {
  rig = await certificateRig();
  process.env.SLIPWRIGHT_KEYS = rig.keyFolder;
  filed = await fileOne(rig);
});
afterAll(() => {
  if (keysBefore === undefined) delete process.env.SLIPWRIGHT_KEYS;
  else process.env.SLIPWRIGHT_KEYS = keysBefore;
  rig.archive.close();
});

function dropped(path: string, bytes: Buffer = readFileSync(path)) {
  return { name: basename(path), base64: bytes.toString('base64') };
}

describe('certificates over the server', () => {
  it('verifies a PDF, and data by the signature that was dropped with them', async () => {
    const { pdf, json, jws } = filed.paths;
    const checks = await certificateFiling(rig.archive).verifyFiles({
      files: [dropped(pdf), dropped(json), dropped(jws)],
    });
    expect(checks).toMatchObject([
      { path: '2026-0001.pdf', state: 'whole', isKeyKnown: true, standing: { state: 'issued' } },
      { path: '2026-0001.json', state: 'whole', isKeyKnown: true, chain: { state: 'first' } },
    ]);
  });

  it('says of a changed byte, of data without their signature, and of a signature alone what they are', async () => {
    const { pdf, json, jws } = filed.paths;
    const bytes = readFileSync(pdf);
    bytes[5_000] = (bytes[5_000] ?? 0) ^ 1;
    const { verifyFiles } = certificateFiling(rig.archive);
    expect(await verifyFiles({ files: [dropped(pdf, bytes), dropped(json)] })).toMatchObject([
      { state: 'changed' },
      { state: 'changed', why: expect.stringContaining('2026-0001.jws') },
    ]);
    expect(await verifyFiles({ files: [dropped(jws)] })).toMatchObject([{ state: 'not a certificate' }]);
  });

  it('withdraws a certificate, lists it so, and tells whoever drops it', async () => {
    const { withdrawCertificate, verifyFiles } = certificateFiling(rig.archive);
    const request = { signatory: 'H. Wiese (invented)', reason: 'flow meter found to read low' };
    const listed = await withdrawCertificate(filed.number, request);
    expect(listed).toMatchObject({ standing: 'withdrawn', standingNote: expect.stringContaining('read low') });
    expect(rig.archive.certificatesOf('dredger-feed-pump')).toEqual([listed]);
    expect(await verifyFiles({ files: [dropped(filed.paths.pdf)] })).toMatchObject([
      { state: 'whole', standing: { state: 'withdrawn', text: expect.stringContaining('read low') } },
    ]);
    await expect(withdrawCertificate('1999-0001', request)).rejects.toMatchObject({ status: 404 });
    await expect(withdrawCertificate(filed.number, request)).rejects.toMatchObject({ code: 'CERTIFICATE_STANDING' });
  });
});
