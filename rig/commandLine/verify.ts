import type { CertificateCheck } from '../certificate/certificateCheck.ts';
import { verifyCertificate } from '../certificate/verifyCertificate.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { Speaker } from './speaker.ts';

function checkText(check: CertificateCheck): string {
  if (check.state !== 'whole') return `${check.path}: ${check.state}. ${check.why}`;
  const { path, number, title, issuedAtUtc, signatory, pumpName, signedBy, isKeyKnown, chain, cannotKnow } = check;
  return [
    `${path}: whole`,
    `  ${number}: ${title}`,
    `  ${pumpName}; issued ${issuedAtUtc}, answered for by ${signatory}`,
    `  signed by ${signedBy.subject}, a key ${isKeyKnown ? 'known' : 'NOT known'} on this machine`,
    `  certificate of that key, SHA-256 ${signedBy.certificateSha256}`,
    `  chain: ${chain.text}`,
    ...cannotKnow.map((text) => `  cannot be known from the file: ${text}`),
  ].join('\n');
}

/** The worst of what was found decides: changed, then a key that is not known here. */
function exitCodeOf(checks: readonly CertificateCheck[]): ExitCode {
  if (checks.some((check) => check.state !== 'whole' || check.chain.state === 'broken')) return EXIT.changed;
  return checks.every((check) => check.state === 'whole' && check.isKeyKnown) ? EXIT.done : EXIT.unknownKey;
}

/** `slipwright verify`: checks files from themselves alone. */
export async function verify(files: readonly string[], speaker: Speaker): Promise<ExitCode> {
  const checks: CertificateCheck[] = [];
  for (const file of files) {
    speaker.progress(`${checks.length + 1} of ${files.length}: ${file}`);
    checks.push(await verifyCertificate(file));
  }
  speaker.result(checks, checks.map(checkText).join('\n'));
  return exitCodeOf(checks);
}
