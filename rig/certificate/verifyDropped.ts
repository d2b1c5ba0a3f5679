import type { CertificateCheck } from './certificateCheck.ts';
import { checkAgainst, type Knowledge } from './checkAgainst.ts';
import { readPresented, withEnding } from './readPresented.ts';
import { tellTwins } from './tellTwins.ts';

export type DroppedFile = { readonly name: string; readonly bytes: Uint8Array };

/**
 * Verifies certificates that were brought together as bytes: each PDF by itself, each JSON file by the signature among
 * the others.
 *
 * @param files - with the names they had; signatures are told of with the data they belong to [-]
 * @param knowledge - keys and certificates that are known here [-]
 * @returns what was found of every file but the signatures, in their order [-]
 */
export function verifyDropped(files: readonly DroppedFile[], knowledge: Knowledge): readonly CertificateCheck[] {
  const isSignature = ({ name }: DroppedFile): boolean => /\.jws$/i.test(name);
  const presented = files.filter((file) => !isSignature(file) || files.every(isSignature));
  const checks = presented.map(({ name, bytes }) => {
    const beside = (ending: 'json' | 'jws'): Uint8Array | null => {
      const other = withEnding(name, ending);
      return other === name ? null : (files.find((file) => file.name === other)?.bytes ?? null);
    };
    return checkAgainst(readPresented({ path: name, bytes, beside }), knowledge);
  });
  return tellTwins(checks);
}
