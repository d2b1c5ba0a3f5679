import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { readAttachment } from '../../../rig/certificate/signature/readSignedPdf.ts';
import { verifyCertificate } from '../../../rig/certificate/verifyCertificate.ts';
import { temporaryFolder } from '../archive/newRun.ts';

/** Filed on sample runs 2026-11-26-0001 and -0002 when the data were still attached packed, and never written again. */
const PACKED = new URL('./filedEarlier/2026-0001.pdf', import.meta.url).pathname;
/** By sha256sum, of the .json that was filed beside it. */
const DATA_SHA256 = 'e3e74587c471a4a669598a86b31171f0b84214cdc84f3003e2e06ce5353627d5';

it('reads a certificate that was filed with its data packed, and finds it whole', () => {
  const attached = readAttachment(readFileSync(PACKED));
  expect(
    createHash('sha256')
      .update(attached ?? '')
      .digest('hex'),
  ).toBe(DATA_SHA256);
  expect(verifyCertificate(PACKED, new Set())).toMatchObject({
    state: 'whole',
    number: '2026-0001',
    outcome: 'pass',
    isSpecimen: true,
    jsonSha256: DATA_SHA256,
  });
});

it('notices a changed byte in packed data', () => {
  const bytes = readFileSync(PACKED);
  const at = bytes.indexOf('/Type /EmbeddedFile') + 1000;
  bytes[at] = (bytes[at] ?? 0) ^ 1;
  const changed = join(temporaryFolder(), '2026-0001.pdf');
  writeFileSync(changed, bytes);
  expect(verifyCertificate(changed, new Set())).toMatchObject({ state: 'changed' });
});
