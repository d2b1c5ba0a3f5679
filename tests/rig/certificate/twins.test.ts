import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CertificateCheck } from '../../../rig/certificate/certificateCheck.ts';
import { fingerprintOf, knownFingerprints } from '../../../rig/certificate/keys.ts';
import { certificatePdf } from '../../../rig/certificate/pdf/certificatePdf.ts';
import { signPdf } from '../../../rig/certificate/signature/signPdf.ts';
import { FileVerifier } from '../../../rig/certificate/verifyCertificate.ts';
import { verifyDropped } from '../../../rig/certificate/verifyDropped.ts';
import { verify } from '../../../rig/commandLine/verify.ts';
import { deliveryRun } from '../../support/certificateRuns.ts';
import { type CertificateRig, certificateRig, fileOne, ISSUED_AT } from '../../support/filedCertificates.ts';

let rig: CertificateRig;
let folder: string;
/** Two of one number, each from an archive of its own; nothing else lies beside either. */
let here: string;
let there: string;

beforeAll(async () => {
  rig = await certificateRig();
  folder = mkdtempSync(join(tmpdir(), 'slipwright-twins-'));
  const other = await certificateRig();
  here = join(mkdtempSync(join(folder, 'here-')), '2026-0001.pdf');
  there = join(mkdtempSync(join(folder, 'there-')), '2026-0001.pdf');
  copyFileSync((await fileOne(rig)).paths.pdf, here);
  copyFileSync((await fileOne(other, [deliveryRun()])).paths.pdf, there);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function standings(checks: readonly CertificateCheck[]): readonly string[] {
  return checks.map((check) =>
    check.state === 'whole' ? `${check.standing.state}: ${check.standing.text}` : check.why,
  );
}

describe('two certificates of one number that are verified together', () => {
  it('are each told of the other, though both are signed', async () => {
    const checks = await new FileVerifier(knownFingerprints(rig.keyFolder)).verifyAll([here, there]);
    expect(checks.map(({ state }) => state)).toEqual(['whole', 'whole']);
    expect(standings(checks)).toEqual([
      `another: Another certificate bears the number 2026-0001: ${there}.`,
      `another: Another certificate bears the number 2026-0001: ${here}.`,
    ]);
  });

  it('end the command with 4, as what was changed does; one of them alone does not', async () => {
    const said: string[] = [];
    const speaker = { result: (_: unknown, text: string) => said.push(text), say: () => {}, progress: () => {} };
    const nowhere = join(folder, 'no-archive');
    expect(await verify([here, there], nowhere, speaker)).toBe(4);
    expect(said[0]).toContain(`Another certificate bears the number 2026-0001: ${there}.`);
    // Its key is not in this machine's folder.
    expect(await verify([there], nowhere, speaker)).toBe(5);
  });

  it('are told of where both are dropped on the page, under one name', () => {
    const files = [here, there].map((path) => ({ name: basename(path), bytes: readFileSync(path) }));
    const checks = verifyDropped(files, { knownKeys: new Set(), ledgers: [] });
    expect(standings(checks)).toEqual(Array(2).fill(expect.stringMatching(/^another: .*2026-0001\.pdf\.$/)));
  });

  it('are two also where a second PDF was made of the same data', async () => {
    const { paths, data } = await fileOne(await certificateRig());
    const json = readFileSync(paths.json);
    const signer = { subject: rig.keys.certificate.subject, fingerprint: fingerprintOf(rig.keys.certificate) };
    const unsigned = await certificatePdf({ data, json, signer, readings: {}, paper: 'letter' });
    const second = join(mkdtempSync(join(folder, 'letter-')), '2026-0001.pdf');
    writeFileSync(second, await signPdf(unsigned, rig.keys, ISSUED_AT));
    const verifier = new FileVerifier(new Set());
    expect(standings(await verifier.verifyAll([paths.pdf, second]))[0]).toMatch(/^another/);
    // The data, and the PDF made of them, are one certificate.
    expect(standings(await verifier.verifyAll([paths.pdf, paths.json]))).not.toContainEqual(
      expect.stringMatching(/^another/),
    );
  });
});
