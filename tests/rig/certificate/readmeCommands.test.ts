import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FiledCertificate } from '../../../rig/certificate/fileCertificate.ts';
import { fingerprintOf } from '../../../rig/certificate/keys.ts';
import { readSignedPdf } from '../../../rig/certificate/signature/readSignedPdf.ts';
import { type CertificateRig, certificateRig, fileOne } from '../../support/filedCertificates.ts';
import { runOutsideTool, type ToolRun } from '../../support/outsideTool.ts';

/** What the README gives to whoever has no Slipwright: each a block of shell commands, in its order. */
const README = new URL('../../../README.md', import.meta.url);
const SECTION = '## Checking a certificate without Slipwright\n';
const TOOLS = ['pdfsig', 'pdfdetach', 'pdftotext', 'openssl', 'basenc', 'sha256sum'];

const section = readFileSync(README, 'utf8').split(SECTION)[1]?.split('\n## ')[0] ?? '';
const blocks = [...section.matchAll(/```sh\n([\s\S]*?)```/g)].map(([, block = '']) => block);
const [poppler = '', cms = '', jws = '', chain = ''] = blocks;

const isHere = TOOLS.every((tool) => runOutsideTool('sh', ['-c', `command -v ${tool}`])?.exitCode === 0);
if (!isHere) console.warn(`NO SECOND OPINION: not all of ${TOOLS.join(', ')} are installed`);

let rig: CertificateRig;
let filed: readonly FiledCertificate[];
const folder = mkdtempSync(join(tmpdir(), 'slipwright-readme-'));
beforeAll(async () => {
  rig = await certificateRig();
  filed = [await fileOne(rig), await fileOne(rig)];
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The files of both certificates in a folder of their own, as the README calls them. */
function copies(): string {
  const into = mkdtempSync(join(folder, 'certificates-'));
  for (const path of filed.flatMap(({ paths }) => Object.values(paths))) copyFileSync(path, join(into, basename(path)));
  return into;
}

/** Runs the commands in that folder, as somebody types them, until one fails. */
function follow(commands: string, into: string): ToolRun {
  const ran = runOutsideTool('sh', ['-eu', '-c', `cd "$0"\n${commands}`, into]);
  if (ran === null) throw new Error('there is no shell');
  return ran;
}

function flipByte(path: string, position: number): void {
  const bytes = readFileSync(path);
  bytes.writeUInt8(bytes.readUInt8(position) ^ 1, position);
  writeFileSync(path, bytes);
}

/** Behind it stand zeros, which say nothing and are not signed. */
function endOfSignature(pdf: Buffer): number {
  const signed = readSignedPdf(pdf);
  if (signed === null) throw new Error('not signed');
  return pdf.indexOf('/Contents <') + '/Contents <'.length + 2 * signed.signature.length;
}

describe.skipIf(!isHere)("the README's commands, with the tools of others", () => {
  it('find a filed certificate whole, its code as printed, its key as printed, and the chain unbroken', () => {
    expect(blocks).toHaveLength(4);
    const { exitCode, output } = follow(blocks.join('\n'), copies());
    expect(output).toContain('Signature is Valid');
    expect(output).toContain('all but the signature is signed');
    expect(output).toContain('CMS Verification successful');
    expect(output).toContain('Verified OK');
    expect(output).toContain(fingerprintOf(rig.keys.certificate));
    expect(output).toContain(filed[1]?.data.previous?.pdfSha256 ?? 'none');
    expect(exitCode).toBe(0);
  });

  it('need nothing but the PDF for its signature and its code', () => {
    const into = copies();
    for (const name of ['2026-0001.pdf', '2026-0001.json', '2026-0001.jws', '2026-0002.json', '2026-0002.jws']) {
      rmSync(join(into, name));
    }
    expect(follow(`${poppler}\n${cms}`, into)).toMatchObject({ exitCode: 0 });
  });

  it.each([
    ['in the middle of the PDF', (pdf: Buffer) => Math.floor(pdf.length / 2)],
    ['in the attached data', (pdf: Buffer) => pdf.indexOf('"signatory"') + 20],
    ['in the last line of the PDF', (pdf: Buffer) => pdf.length - 2],
    ['in the last digits of the signature', (pdf: Buffer) => endOfSignature(pdf) - 10],
  ])('fail on one changed byte %s, by pdfsig and by openssl', (_, positionIn) => {
    const into = copies();
    const pdf = join(into, '2026-0002.pdf');
    flipByte(pdf, positionIn(readFileSync(pdf)));
    expect(follow(poppler, into).exitCode).not.toBe(0);
    expect(follow(cms, into).exitCode).not.toBe(0);
  });

  it('fail on a PDF to which something was added behind what is signed', () => {
    const into = copies();
    const pdf = join(into, '2026-0002.pdf');
    writeFileSync(pdf, '\n%%EOF\n', { flag: 'a' });
    expect(follow(poppler, into).exitCode).not.toBe(0);
    expect(follow(cms, into).exitCode).not.toBe(0);
  });

  it.each([
    ['2026-0002.json', 700],
    ['2026-0002.jws', 100],
    ['2026-0002.jws', 950],
  ])('fail on one changed byte of the data or of the signature beside them: %s, byte %d', (name, position) => {
    const into = copies();
    expect(follow(cms + jws, into).exitCode).toBe(0);
    flipByte(join(into, name), position);
    expect(follow(jws, into).exitCode).not.toBe(0);
  });

  it.each(['2026-0001.json', '2026-0001.pdf'])('fail where the certificate before was changed: %s', (name) => {
    const into = copies();
    expect(follow(poppler + chain, into).exitCode).toBe(0);
    flipByte(join(into, name), 500);
    expect(follow(chain, into).exitCode).not.toBe(0);
  });
});
