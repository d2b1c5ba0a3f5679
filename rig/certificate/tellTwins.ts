import type { CertificateCheck } from './certificateCheck.ts';

type Whole = Extract<CertificateCheck, { state: 'whole' }>;

/** Two files of one number are one certificate if their data are the same bytes, and their PDFs where both are PDFs. */
function isOther(one: Whole, other: Whole): boolean {
  const differ = one.pdfSha256 !== null && other.pdfSha256 !== null && one.pdfSha256 !== other.pdfSha256;
  return one.jsonSha256 !== other.jsonSha256 || differ;
}

/**
 * Files that are verified together and bear one number, though they are not one certificate: each is told of the other. Both
 * may be signed, and nothing in either says which is right.
 *
 * @param checks - what was found of each by itself [-]
 * @returns the same, in their order [-]
 */
export function tellTwins(checks: readonly CertificateCheck[]): readonly CertificateCheck[] {
  const ofNumber = new Map<string, Whole[]>();
  for (const check of checks) {
    if (check.state !== 'whole') continue;
    const known = ofNumber.get(check.number) ?? [];
    // One of each kind is enough.
    if (known.length === 0 || known.every((one) => isOther(one, check))) known.push(check);
    ofNumber.set(check.number, known);
  }
  return checks.map((check) => {
    if (check.state !== 'whole') return check;
    const twin = ofNumber.get(check.number)?.find((one) => isOther(one, check));
    if (twin === undefined) return check;
    const text = `Another certificate bears the number ${check.number}: ${twin.path}.`;
    return { ...check, standing: { state: 'another', text } };
  });
}
