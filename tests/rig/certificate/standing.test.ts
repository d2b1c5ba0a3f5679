import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { withdrawalData } from '../../../analysis/certificate/withdrawalData.ts';
import { sha256Of } from '../../../rig/certificate/certificateFolder.ts';
import { fingerprintOf, knownFingerprints } from '../../../rig/certificate/keys.ts';
import { certificateInJws, verifyJws } from '../../../rig/certificate/signature/jws.ts';
import { FileVerifier } from '../../../rig/certificate/verifyCertificate.ts';
import { withdrawCertificate } from '../../../rig/certificate/withdrawCertificate.ts';
import { type CertificateRig, certificateRig, fileOne } from '../../support/filedCertificates.ts';

const WITHDRAWN_AT = new Date('2026-07-01T10:00:00Z');

function withdraw({ archive, keys }: CertificateRig, number: string, reason = 'flow meter found to read low') {
  const request = { archive, number, reason, signatory: 'H. Wiese (invented)', withdrawnAt: WITHDRAWN_AT };
  return withdrawCertificate({ ...request, keysFor: async () => keys });
}

function replace(rig: CertificateRig, number: string, reason = 'owner was misspelt') {
  return fileOne(rig, undefined, undefined, { number, reason });
}

function folderOf({ archive }: CertificateRig): string {
  return join(archive.directory, 'certificates');
}

function verifierOf(rig: CertificateRig): FileVerifier {
  return new FileVerifier(knownFingerprints(rig.keyFolder), folderOf(rig));
}

describe('withdrawing a certificate', () => {
  it('leaves it where it is, with a notice beside it that is signed by the same key', async () => {
    const rig = await certificateRig();
    const { number, paths } = await fileOne(rig);
    const before = readFileSync(paths.pdf);
    await withdraw(rig, number);
    expect(readFileSync(paths.pdf).equals(before)).toBe(true);
    const json = readFileSync(join(folderOf(rig), `${number}.withdrawn.json`));
    const jws = readFileSync(join(folderOf(rig), `${number}.withdrawn.jws`), 'latin1');
    const certificate = certificateInJws(jws);
    if (certificate === null) throw new Error('no certificate in the signature');
    expect(fingerprintOf(certificate)).toBe(fingerprintOf(rig.keys.certificate));
    expect(verifyJws(jws, json, certificate.publicKey)).toBe(true);
    expect(withdrawalData.parse(JSON.parse(json.toString()))).toMatchObject({
      number,
      reason: 'flow meter found to read low',
      withdrawnAtUtc: '2026-07-01T10:00:00Z',
      jsonSha256: sha256Of(readFileSync(paths.json)),
      pdfSha256: sha256Of(before),
    });
  });

  it('is listed, from the index and from the files alike, and told by whoever verifies here', async () => {
    const rig = await certificateRig();
    const { number, paths } = await fileOne(rig);
    await withdraw(rig, number);
    const listed = rig.archive.certificatesOf('dredger-feed-pump');
    rig.archive.rebuildIndex();
    expect(rig.archive.certificatesOf('dredger-feed-pump')).toEqual(listed);
    expect(listed).toMatchObject([
      { standing: 'withdrawn', standingNote: expect.stringContaining('flow meter found to read low') },
    ]);
    for (const path of [paths.pdf, paths.json]) {
      const check = verifierOf(rig).verify(path);
      expect(check).toMatchObject({ state: 'whole', standing: { state: 'withdrawn' } });
    }
  });

  it('stands in the chain: with its notice changed or gone the next certificate says so', async () => {
    const rig = await certificateRig();
    const first = await fileOne(rig);
    await withdraw(rig, first.number);
    const second = await fileOne(rig);
    expect(second.data.notices).toMatchObject([{ file: '2026-0001.withdrawn.json' }]);
    expect(verifierOf(rig).verify(second.paths.pdf)).toMatchObject({ chain: { state: 'holds' } });
    const notice = join(folderOf(rig), '2026-0001.withdrawn.json');
    const bytes = readFileSync(notice, 'utf8');
    writeFileSync(notice, bytes.replace('read low', 'read high'));
    expect(verifierOf(rig).verify(second.paths.pdf)).toMatchObject({
      chain: { state: 'broken', text: expect.stringContaining(notice) },
    });
    expect(verifierOf(rig).verify(first.paths.pdf)).toMatchObject({ standing: { state: 'changed notice' } });
    rmSync(notice);
    expect(verifierOf(rig).verify(second.paths.pdf)).toMatchObject({
      chain: { state: 'broken', text: expect.stringContaining('missing') },
    });
  });

  it('orders several notices by what each names before it', async () => {
    const rig = await certificateRig();
    const filed = [await fileOne(rig), await fileOne(rig), await fileOne(rig)];
    for (const { number } of filed.toReversed()) await withdraw(rig, number);
    const next = await fileOne(rig);
    expect(next.data.notices.map(({ file }) => file)).toEqual([
      '2026-0003.withdrawn.json',
      '2026-0002.withdrawn.json',
      '2026-0001.withdrawn.json',
    ]);
    expect(verifierOf(rig).verify(next.paths.json)).toMatchObject({ chain: { state: 'holds' } });
  });

  it('is refused for a number that is not filed, a second time, and without a reason; nothing is written then', async () => {
    const rig = await certificateRig();
    const { number } = await fileOne(rig);
    await expect(withdraw(rig, '2026-0009')).rejects.toMatchObject({ code: 'UNKNOWN_CERTIFICATE' });
    await expect(withdraw(rig, number, ' ')).rejects.toThrow('why');
    expect(existsSync(join(folderOf(rig), `${number}.withdrawn.jws`))).toBe(false);
    await withdraw(rig, number);
    await expect(withdraw(rig, number)).rejects.toMatchObject({ code: 'CERTIFICATE_STANDING' });
  });
});

describe('replacing a certificate', () => {
  it('names the old one, its bytes and the reason in the new one, and lists the old one as replaced', async () => {
    const rig = await certificateRig();
    const old = await fileOne(rig);
    const next = await replace(rig, old.number);
    expect(next.data.replaces).toEqual({
      number: old.number,
      jsonSha256: sha256Of(readFileSync(old.paths.json)),
      reason: 'owner was misspelt',
    });
    const listed = rig.archive.certificatesOf('dredger-feed-pump');
    expect(listed).toMatchObject([
      { number: next.number, standing: 'issued', standingNote: '' },
      { number: old.number, standing: 'replaced', standingNote: expect.stringContaining('owner was misspelt') },
    ]);
    rig.archive.rebuildIndex();
    expect(rig.archive.certificatesOf('dredger-feed-pump')).toEqual(listed);
    expect(verifierOf(rig).verify(old.paths.pdf)).toMatchObject({
      state: 'whole',
      standing: { state: 'replaced', text: expect.stringContaining(next.number) },
    });
    expect(verifierOf(rig).verify(next.paths.pdf)).toMatchObject({
      standing: { state: 'issued' },
      replaces: { number: old.number },
    });
  });

  it('is refused for one that is not filed, or that stands no more', async () => {
    const rig = await certificateRig();
    const { number } = await fileOne(rig);
    await expect(replace(rig, '2025-0001')).rejects.toMatchObject({ code: 'UNKNOWN_CERTIFICATE' });
    await replace(rig, number);
    await expect(replace(rig, number)).rejects.toMatchObject({ code: 'CERTIFICATE_STANDING' });
    await expect(withdraw(rig, number)).rejects.toMatchObject({ code: 'CERTIFICATE_STANDING' });
    expect(rig.archive.certificatesOf('dredger-feed-pump')).toHaveLength(2);
  });
});

describe('what an archive knows of a file from elsewhere', () => {
  it('says of a certificate of another archive that its number is borne by another here', async () => {
    const [here, elsewhere] = [await certificateRig(), await certificateRig()];
    await fileOne(here);
    const { paths } = await fileOne(elsewhere, undefined, new Date('2026-06-13T09:00:00Z'));
    const check = verifierOf(here).verify(paths.pdf);
    expect(check).toMatchObject({ state: 'whole', isKeyKnown: false, standing: { state: 'another' } });
  });

  it('says that nothing is known of a certificate that is not filed here, and knows a copy of one that is', async () => {
    const [here, elsewhere] = [await certificateRig(), await certificateRig()];
    const folder = mkdtempSync(join(tmpdir(), 'slipwright-copy-'));
    const { paths, number } = await fileOne(elsewhere);
    const copy = join(folder, 'sent by the customer.pdf');
    writeFileSync(copy, readFileSync(paths.pdf));
    expect(verifierOf(here).verify(copy)).toMatchObject({ state: 'whole', standing: { state: 'not told' } });
    await withdraw(elsewhere, number);
    expect(verifierOf(elsewhere).verify(copy)).toMatchObject({ standing: { state: 'withdrawn' } });
  });
});
