import { chmodSync, mkdirSync, mkdtempSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { KeyError } from '../../../rig/certificate/certificateErrors.ts';
import { defaultKeyFolder, fingerprintOf, knownFingerprints, openKeys } from '../../../rig/certificate/keys.ts';
import { runOutsideTool } from '../../support/outsideTool.ts';

const MADE_ON = new Date('2026-06-01T10:30:00Z');

function newFolder(): string {
  return join(mkdtempSync(join(tmpdir(), 'slipwright-keys-')), 'keys');
}

describe("the workshop's key", () => {
  it('is made at first use and is the same ever after', async () => {
    const folder = newFolder();
    const first = await openKeys('Invented workshop', MADE_ON, folder);
    const again = await openKeys('Another name', new Date('2027-01-01T00:00:00Z'), folder);
    expect(again.certificate.raw.equals(first.certificate.raw)).toBe(true);
    expect(first.certificate.subject).toContain('CN=Invented workshop');
  });

  it('is on P-256, signs itself, and is valid for thirty years and more', async () => {
    const { certificate } = await openKeys('Invented workshop', MADE_ON, newFolder());
    expect(certificate.publicKey.asymmetricKeyDetails?.namedCurve).toBe('prime256v1');
    expect(certificate.verify(certificate.publicKey)).toBe(true);
    expect(certificate.validFrom).toBe('Jun  1 00:00:00 2026 GMT');
    expect(Date.parse(certificate.validTo)).toBeGreaterThan(Date.UTC(2056, 5, 1));
  });

  it('lies in a file and a folder that nobody else can read', async () => {
    const folder = newFolder();
    await openKeys('Invented workshop', MADE_ON, folder);
    expect(statSync(folder).mode & 0o777).toBe(0o700);
    expect(statSync(join(folder, 'signing.pem')).mode & 0o777).toBe(0o600);
  });

  it('is refused where others may read it, naming file and mode', async () => {
    const folder = newFolder();
    await openKeys('Invented workshop', MADE_ON, folder);
    const path = join(folder, 'signing.pem');
    chmodSync(path, 0o640);
    const refusal = await openKeys('Invented workshop', MADE_ON, folder).catch((error: unknown) => error);
    expect(refusal).toBeInstanceOf(KeyError);
    expect(refusal).toMatchObject({ code: 'KEY', path });
    expect(String(refusal)).toContain('0640');
  });

  it('is refused where the file is no key', async () => {
    const folder = newFolder();
    mkdirSync(folder);
    writeFileSync(join(folder, 'signing.pem'), 'not a key', { mode: 0o600 });
    await expect(openKeys('Invented workshop', MADE_ON, folder)).rejects.toMatchObject({ code: 'KEY' });
  });

  it('is refused where the folder cannot be made', async () => {
    const folder = newFolder();
    writeFileSync(folder, 'a file in the way');
    await expect(openKeys('Invented workshop', MADE_ON, folder)).rejects.toMatchObject({ code: 'KEY' });
  });

  it('is one key when two make it at once', async () => {
    const folder = newFolder();
    const both = await Promise.all([1, 2].map(() => openKeys('Invented workshop', MADE_ON, folder)));
    expect(new Set(both.map(({ certificate }) => fingerprintOf(certificate))).size).toBe(1);
  });

  it("knows its own certificate, and another workshop's that was put beside it", async () => {
    const [ours, theirs] = [newFolder(), newFolder()];
    const keys = await openKeys('Invented workshop', MADE_ON, ours);
    const others = await openKeys('Other invented workshop', MADE_ON, theirs);
    expect(knownFingerprints(ours)).toEqual(new Set([fingerprintOf(keys.certificate)]));
    writeFileSync(join(ours, 'other.pem'), others.certificate.toString());
    writeFileSync(join(ours, 'broken.pem'), '-----BEGIN CERTIFICATE-----\nAAAA\n-----END CERTIFICATE-----\n');
    expect(knownFingerprints(ours).has(fingerprintOf(others.certificate))).toBe(true);
    expect(knownFingerprints(newFolder()).size).toBe(0);
  });

  it('has the fingerprint that openssl gives it', async () => {
    const folder = newFolder();
    const { certificate } = await openKeys('Invented workshop', MADE_ON, folder);
    const path = join(folder, 'signing.pem');
    const openssl = runOutsideTool('openssl', ['x509', '-in', path, '-noout', '-fingerprint', '-sha256']);
    expect(readFileSync(path, 'utf8')).toContain('BEGIN CERTIFICATE');
    if (openssl !== null) {
      expect(openssl.output.replaceAll(':', '').toLowerCase()).toContain(fingerprintOf(certificate));
    }
  });

  it('lives where SLIPWRIGHT_KEYS says', () => {
    expect(defaultKeyFolder({ SLIPWRIGHT_KEYS: '/somewhere/keys' })).toBe('/somewhere/keys');
    expect(defaultKeyFolder({})).toMatch(/slipwright.keys$/);
    expect(defaultKeyFolder({ SLIPWRIGHT_KEYS: '' })).toBe(defaultKeyFolder({}));
  });
});
