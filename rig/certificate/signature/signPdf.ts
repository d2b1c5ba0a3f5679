import { Signer, SignPdf } from '@signpdf/signpdf';
import type { WorkshopKeys } from '../keys.ts';
import { signCms } from './cms.ts';

class WorkshopSigner extends Signer {
  constructor(
    private readonly keys: WorkshopKeys,
    private readonly signedAt: Date,
  ) {
    super();
  }

  override async sign(pdf: Buffer): Promise<Buffer> {
    return Buffer.from(signCms(pdf, this.keys, this.signedAt));
  }
}

/**
 * Signs a PDF that has room for a signature: every byte but the signature itself is covered.
 *
 * @param pdf - as it was set, with a placeholder [-]
 * @param keys - the workshop's [-]
 * @param signedAt - stated time of signing [-]
 * @returns the signed file [-]
 *
 * Source: ISO 32000-1:2008, 12.8.1.
 */
export async function signPdf(pdf: Uint8Array, keys: WorkshopKeys, signedAt: Date): Promise<Buffer> {
  return new SignPdf().sign(pdf, new WorkshopSigner(keys, signedAt));
}
