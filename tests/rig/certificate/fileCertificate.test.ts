import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { certificateData } from '../../../analysis/certificate/certificateData.ts';
import { filedNumbers, nextNumber, sha256Of } from '../../../rig/certificate/certificateFolder.ts';
import { fileCertificate } from '../../../rig/certificate/fileCertificate.ts';
import { fingerprintOf } from '../../../rig/certificate/keys.ts';
import { certificatePdf } from '../../../rig/certificate/pdf/certificatePdf.ts';
import { readAttachment, readSignedPdf } from '../../../rig/certificate/signature/readSignedPdf.ts';
import { deliveryRun, dryLiftReadings, dryLiftRun } from '../../support/certificateRuns.ts';
import { certificateRig, fileOne, ISSUED_AT } from '../../support/filedCertificates.ts';
import { runOutsideTool } from '../../support/outsideTool.ts';

describe('filing a certificate', () => {
  it('writes data, signature and PDF under the year and a counter, and lists it', async () => {
    const rig = await certificateRig();
    const { number, data, paths } = await fileOne(rig);
    expect(number).toBe('2026-0001');
    expect(Object.values(paths).every((path) => existsSync(path))).toBe(true);
    expect(data.issuedAtUtc).toBe('2026-06-12T09:00:00Z');
    expect(certificateData.parse(JSON.parse(readFileSync(paths.json, 'utf8')))).toEqual(data);
    const listed = rig.archive.certificatesOf('dredger-feed-pump');
    rig.archive.rebuildIndex();
    expect(rig.archive.certificatesOf('dredger-feed-pump')).toEqual(listed);
    expect(rig.archive.certificatesOf('dredger-feed-pump')[0]).toMatchObject({
      number,
      outcome: 'pass',
      pumpId: 'dredger-feed-pump',
    });
  });

  it('chains each certificate to the bytes of the one before it', async () => {
    const rig = await certificateRig();
    const first = await fileOne(rig);
    const second = await fileOne(rig);
    expect(first.data.previous).toBeNull();
    expect(second.data.previous).toEqual({
      number: '2026-0001',
      jsonSha256: sha256Of(readFileSync(first.paths.json)),
      pdfSha256: sha256Of(readFileSync(first.paths.pdf)),
    });
  });

  it('gives two that file at once two numbers, one chained to the other', async () => {
    const rig = await certificateRig();
    const both = await Promise.all([fileOne(rig), fileOne(rig)]);
    expect(both.map(({ number }) => number).sort()).toEqual(['2026-0001', '2026-0002']);
    expect(both.map(({ data }) => data.previous?.number ?? null).sort()).toEqual(['2026-0001', null]);
  });

  it('begins a new year at one, and goes on in the last year when the clock runs backwards', async () => {
    const rig = await certificateRig();
    await fileOne(rig);
    const next = await fileOne(rig, [deliveryRun(), dryLiftRun()], new Date('2027-01-02T08:00:00Z'));
    expect(next.number).toBe('2027-0001');
    expect(next.data.previous?.number).toBe('2026-0001');
    expect(nextNumber(rig.archive.directory, ISSUED_AT)).toBe('2027-0002');
  });

  it('says of a date of issue before one that was filed earlier that it is in doubt, and of no other', async () => {
    const rig = await certificateRig();
    const at = async (instant: string) => (await fileOne(rig, undefined, new Date(instant))).data;
    expect((await at('2026-06-12T09:00:00Z')).dateDoubts).toEqual([]);
    expect((await at('2027-03-01T09:00:00Z')).dateDoubts).toEqual([]);
    // Set back by most of a year, and a day later still before the certificate of 2027.
    for (const instant of ['2026-06-13T09:00:00Z', '2026-06-14T09:00:00Z']) {
      const { dateDoubts, verification } = await at(instant);
      expect(dateDoubts).toEqual([expect.stringContaining('2027-0001, filed before it, was issued at 2027-03-01T09')]);
      expect(dateDoubts[0]).toContain(instant);
      expect(verification.cannotKnow).toContain(dateDoubts[0]);
    }
    expect((await at('2027-03-01T09:00:01Z')).dateDoubts).toEqual([]);
  });

  it('says so too where a run began after the date of issue, and prints it beside the date', async () => {
    const rig = await certificateRig();
    const { data, paths } = await fileOne(rig, [deliveryRun()], new Date('2026-06-11T08:14:59Z'));
    expect(data.dateDoubts).toEqual([expect.stringMatching(/run 20260611-delivery-1.*2026-06-11T08:15:00Z/)]);
    const text = runOutsideTool('pdftotext', ['-f', '1', '-l', '1', paths.pdf, '-']);
    if (text !== null) expect(text.output.replaceAll('\n', ' ')).toContain(data.dateDoubts[0]);
  });

  it('never lists or uses again a number that was half filed', async () => {
    const rig = await certificateRig();
    const first = await fileOne(rig);
    const half = await fileOne(rig);
    rmSync(half.paths.pdf);
    expect(filedNumbers(rig.archive.directory)).toEqual(['2026-0001']);
    const next = await fileOne(rig);
    expect(next.number).toBe('2026-0003');
    expect(next.data.previous?.number).toBe(first.number);
  });

  it('writes nothing where the runs do not allow a certificate', async () => {
    const rig = await certificateRig();
    const request = { signatory: 'x', programVersion: '0.1.0', issuedAt: ISSUED_AT, readings: {} };
    const filed = await fileCertificate({ ...request, archive: rig.archive, keys: rig.keys, runs: [] });
    expect(filed).toMatchObject({ ok: false, reason: { code: 'NO_RUNS' } });
    const names = readdirSync(join(rig.archive.directory, 'certificates')).filter((name) => /^\d/.test(name));
    expect(names).toEqual([]);
  });

  it('names the file in an archive that holds something else under a number', async () => {
    const rig = await certificateRig();
    const { paths } = await fileOne(rig);
    writeFileSync(paths.json, '{}');
    expect(rig.archive.rebuildIndex()).toEqual([expect.stringContaining(paths.json)]);
  });
});

describe("a certificate's PDF", () => {
  it('is the same, byte for byte, for the same input', async () => {
    const rig = await certificateRig();
    const { data, paths } = await fileOne(rig);
    const json = readFileSync(paths.json);
    const signer = { subject: rig.keys.certificate.subject, fingerprint: fingerprintOf(rig.keys.certificate) };
    const request = { data, json, signer, readings: { '20260611-drylift-1': dryLiftReadings() } };
    const [once, again] = [await certificatePdf(request), await certificatePdf(request)];
    expect(once.equals(again)).toBe(true);
  });

  it('carries the very bytes of the data', async () => {
    const { paths } = await fileOne(await certificateRig());
    const attached = readAttachment(readFileSync(paths.pdf));
    expect(readFileSync(paths.json).equals(attached ?? Buffer.alloc(0))).toBe(true);
  });

  it('is valid to pdfsig, which finds the whole document signed', async () => {
    const { paths } = await fileOne(await certificateRig());
    const pdfsig = runOutsideTool('pdfsig', [paths.pdf]);
    if (pdfsig !== null) {
      expect(pdfsig.output).toContain('Signature is Valid');
      expect(pdfsig.output).toContain('Total document signed');
      expect(pdfsig.output).toContain('Kanalbau Gearbox Works (invented)');
    }
    expect(readSignedPdf(readFileSync(paths.pdf))).not.toBeNull();
  });

  it('gives pdfdetach the same data', async () => {
    const { paths } = await fileOne(await certificateRig());
    const detached = `${paths.pdf}.detached`;
    const pdfdetach = runOutsideTool('pdfdetach', ['-save', '1', '-o', detached, paths.pdf]);
    if (pdfdetach !== null) expect(readFileSync(detached).equals(readFileSync(paths.json))).toBe(true);
  });

  it('has a signature that openssl verifies over its byte range', async () => {
    const { paths } = await fileOne(await certificateRig());
    const signed = readSignedPdf(readFileSync(paths.pdf));
    if (signed === null) throw new Error('not signed');
    writeFileSync(`${paths.pdf}.cms`, signed.signature);
    const pdf = readFileSync(paths.pdf);
    const [, to = '', from = ''] = /\/ByteRange \[0 (\d+) (\d+) \d+\]/.exec(pdf.toString('latin1')) ?? [];
    writeFileSync(`${paths.pdf}.covered`, Buffer.concat([pdf.subarray(0, Number(to)), pdf.subarray(Number(from))]));
    const openssl = runOutsideTool('openssl', [
      ...['cms', '-verify', '-binary', '-noverify', '-inform', 'DER', '-out', `${paths.pdf}.out`],
      ...['-in', `${paths.pdf}.cms`, '-content', `${paths.pdf}.covered`],
    ]);
    if (openssl !== null) expect(openssl).toMatchObject({ exitCode: 0 });
  });

  it('says in its text who, what, the verdict, and SPECIMEN where it is one', async () => {
    const rig = await certificateRig();
    const runs = [deliveryRun({ isPractice: true }), dryLiftRun({ isPractice: true })];
    const { paths } = await fileOne(rig, runs);
    // In the order of the content, however its lines are broken.
    const text = runOutsideTool('pdftotext', ['-raw', paths.pdf, '-'])?.output.replace(/\s+/g, ' ');
    if (text === undefined) return;
    for (const words of [
      'SPECIMEN. Certificate of test: pass',
      'KB-204',
      '2026-0001',
      'H. Wiese',
      'not a safety device',
    ]) {
      expect(text).toContain(words);
    }
    // Worked by hand from the fixture: 1.97312e-4 m³/s × 60 000 = 11.8387 l/min, U = 2 × 9.4e-7 × 60 000 = 0.11.
    expect(text).toContain('11.84 l/min');
    expect(text).toContain('± 0.11');
  });
});
