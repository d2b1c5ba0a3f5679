import type { CertificateCheck } from '../certificate/certificateCheck.ts';
import { certificateFolder } from '../certificate/certificateFolder.ts';
import { knownFingerprints } from '../certificate/keys.ts';
import { FileVerifier } from '../certificate/verifyCertificate.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { Speaker } from './speaker.ts';

function checkText(check: CertificateCheck): string {
  if (check.state !== 'whole') return `${check.path}: ${check.state}. ${check.why}`;
  const {
    path,
    number,
    title,
    issuedAtUtc,
    signatory,
    pumpName,
    signedBy,
    isKeyKnown,
    chain,
    standing,
    replaces,
    cannotKnow,
  } = check;
  return [
    `${path}: whole`,
    `  ${number}: ${title}`,
    `  ${pumpName}; issued ${issuedAtUtc}, answered for by ${signatory}`,
    `  signed by ${signedBy.subject}, a key ${isKeyKnown ? 'known' : 'NOT known'} on this machine`,
    `  certificate of that key, SHA-256 ${signedBy.certificateSha256}`,
    `  SHA-256 of its data ${check.jsonSha256}`,
    ...(replaces === null ? [] : [`  in place of ${replaces.number}: ${replaces.reason}`]),
    `  chain: ${chain.text}`,
    `  standing: ${standing.text}`,
    ...cannotKnow.map((text) => `  cannot be known from the file: ${text}`),
  ].join('\n');
}

function isChanged(check: CertificateCheck): boolean {
  if (check.state !== 'whole') return true;
  const { state } = check.standing;
  return check.chain.state === 'broken' || state === 'another' || state === 'changed notice';
}

/** The worst of what was found decides: changed, then a key that is not known here, then one that stands no more. */
function exitCodeOf(checks: readonly CertificateCheck[]): ExitCode {
  if (checks.some(isChanged)) return EXIT.changed;
  if (checks.some((check) => check.state === 'whole' && !check.isKeyKnown)) return EXIT.unknownKey;
  const stands = checks.every(
    (check) => check.state === 'whole' && check.standing.state !== 'withdrawn' && check.standing.state !== 'replaced',
  );
  return stands ? EXIT.done : EXIT.standsNoMore;
}

/** `slipwright verify`: checks files from themselves, and says what their folder and the archive know of them besides. */
export async function verify(files: readonly string[], archiveDirectory: string, speaker: Speaker): Promise<ExitCode> {
  const verifier = new FileVerifier(knownFingerprints(), certificateFolder(archiveDirectory));
  const checks = await verifier.verifyAll(files, (count) => speaker.progress(`${count} of ${files.length} read`));
  speaker.result(checks, checks.map(checkText).join('\n'));
  return exitCodeOf(checks);
}
