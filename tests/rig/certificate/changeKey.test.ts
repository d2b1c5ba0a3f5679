import { chmodSync, existsSync, mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keyChangeData } from '../../../analysis/certificate/keyChangeData.ts';
import { sha256Of } from '../../../rig/certificate/certificateFolder.ts';
import { changeKey } from '../../../rig/certificate/changeKey.ts';
import { fingerprintOf, knownFingerprints, openKeys, protectKey } from '../../../rig/certificate/keys.ts';
import { certificateInJws, verifyJws } from '../../../rig/certificate/signature/jws.ts';
import { FileVerifier } from '../../../rig/certificate/verifyCertificate.ts';
import { type CertificateRig, certificateRig, fileOne } from '../../support/filedCertificates.ts';

const AT = new Date('2026-08-01T12:00:00Z');

function change({ archive, keyFolder }: CertificateRig, passphrase: string | null = null) {
  const words = { workshop: 'Kanalbau Gearbox Works (invented)', signatory: 'H. Wiese (invented)' };
  return changeKey({ archive, keyFolder, passphrase, ...words, reason: 'computer was sold', changedAt: AT });
}

describe('a change of key', () => {
  it('is signed by the old key and by the new one over the same bytes', async () => {
    const rig = await certificateRig();
    const folder = join(rig.archive.directory, 'certificates');
    const notice = await change(rig);
    const json = readFileSync(join(folder, 'key-0001.json'));
    expect(keyChangeData.parse(JSON.parse(json.toString()))).toEqual(notice);
    const after = await openKeys('', AT, rig.keyFolder);
    for (const [name, keys] of [
      ['old', rig.keys],
      ['new', after],
    ] as const) {
      const jws = readFileSync(join(folder, `key-0001.${name}.jws`), 'latin1');
      const certificate = certificateInJws(jws);
      expect(certificate === null ? '' : fingerprintOf(certificate)).toBe(fingerprintOf(keys.certificate));
      expect(verifyJws(jws, json, keys.certificate.publicKey)).toBe(true);
    }
    expect(notice.before.certificateSha256).toBe(fingerprintOf(rig.keys.certificate));
    expect(notice.after.certificateSha256).toBe(fingerprintOf(after.certificate));
  });

  it('leaves what the old key signed known here, and stands in the chain of what the new key signs', async () => {
    const rig = await certificateRig();
    const first = await fileOne(rig);
    await change(rig);
    const second = await fileOne({ ...rig, keys: await openKeys('', AT, rig.keyFolder) });
    const notice = join(rig.archive.directory, 'certificates', 'key-0001.json');
    expect(second.data.notices).toEqual([{ file: 'key-0001.json', jsonSha256: sha256Of(readFileSync(notice)) }]);
    const verifier = () => new FileVerifier(knownFingerprints(rig.keyFolder));
    for (const { paths } of [first, second]) {
      expect(verifier().verify(paths.pdf)).toMatchObject({ state: 'whole', isKeyKnown: true });
    }
    writeFileSync(notice, readFileSync(notice, 'utf8').replace('was sold', 'was lost'));
    expect(verifier().verify(second.paths.pdf)).toMatchObject({ chain: { state: 'broken' } });
  });

  it('that was cut off after it was filed is ended by the next, not filed twice', async () => {
    const rig = await certificateRig();
    await change(rig);
    const [signing, next] = ['signing.pem', 'signing.next.pem'].map((name) => join(rig.keyFolder, name));
    const retired = `signing-${fingerprintOf(rig.keys.certificate).slice(0, 16)}.pem`;
    if (signing === undefined || next === undefined) throw new Error('no paths');
    // As a program leaves it that was killed between notice and renaming.
    writeFileSync(next, readFileSync(signing), { mode: 0o600 });
    writeFileSync(signing, readFileSync(join(rig.keyFolder, retired)), { mode: 0o600 });
    await change(rig);
    expect(existsSync(join(rig.archive.directory, 'certificates', 'key-0002.json'))).toBe(false);
    expect(existsSync(next)).toBe(false);
  });
});

describe('a key under a passphrase', () => {
  function folder(): string {
    return join(mkdtempSync(join(tmpdir(), 'slipwright-keys-')), 'keys');
  }

  it('is made so, opens with it and with nothing else, and lies encrypted', async () => {
    const at = folder();
    const made = await openKeys('Invented workshop', AT, at, 'signing.pem', 'invented words');
    const again = await openKeys('Invented workshop', AT, at, 'signing.pem', 'invented words');
    expect(again.certificate.raw.equals(made.certificate.raw)).toBe(true);
    expect(readFileSync(join(at, 'signing.pem'), 'utf8')).toContain('BEGIN ENCRYPTED PRIVATE KEY');
    for (const other of [null, 'other words']) {
      const refusal = openKeys('Invented workshop', AT, at, 'signing.pem', other);
      await expect(refusal).rejects.toMatchObject({ code: 'KEY', message: expect.stringContaining('passphrase') });
    }
  });

  it('can be put there later, once, and stays readable by its owner alone', async () => {
    const at = folder();
    const made = await openKeys('Invented workshop', AT, at, 'signing.pem', null);
    protectKey('invented words', at);
    const again = await openKeys('Invented workshop', AT, at, 'signing.pem', 'invented words');
    expect(again.certificate.raw.equals(made.certificate.raw)).toBe(true);
    expect(() => protectKey('more words', at)).toThrow('passphrase');
    expect(() => protectKey('words', folder())).toThrow('is not there');
  });

  it('is refused by name where others may read the file', async () => {
    const at = folder();
    mkdirSync(at);
    await openKeys('Invented workshop', AT, at, 'signing.pem', 'invented words');
    chmodSync(join(at, 'signing.pem'), 0o644);
    await expect(openKeys('', AT, at, 'signing.pem', 'invented words')).rejects.toThrow(/signing\.pem.*0644/);
  });
});
