import type { OutcomeWord } from '../result.ts';

/** Sentences that every certificate carries; they are part of its data, so that they can still be read without this program. */

export const SCOPE = 'Speaks for the pump as sealed on this day; void if opened or re-gasketed.';

export const DECISION_RULE =
  'Each demand is decided with a guard band as wide as the expanded uncertainty U (in the manner of JCGM 106:2012): pass ' +
  'where the value is better than the limit by at least U, fail where it is worse by at least U, not proven between. The ' +
  'probability beside a verdict is that of the true value keeping the limit.';

export const UNCERTAINTY_STATEMENT =
  'U is the expanded uncertainty for a coverage probability of 95 %, in the manner of JCGM 100:2008. It counts the scatter ' +
  'of the readings and the stated errors of instruments, oil and geometry; errors that all holds share do not average out.';

export const LAW_FORMULA = 'q = V_i n − C_l Δp/µ − C_t (2 Δp/ρ)^½ − C_np n Δp';

export const LAW_IN_WORDS =
  'Flow q, drawn in at the inlet, is derived capacity V_i times speed n, less three leaks: laminar slip C_l, growing with the pressure ' +
  'difference Δp over the dynamic viscosity µ; orifice slip C_t, with the square root of twice Δp over the density ρ; and ' +
  'slip C_np, with speed times Δp. A coefficient of zero was left out by the fit.';

export const CAUTIONS: readonly string[] = [
  'Fit and set the relief valve before the first start: a positive-displacement pump against a closed valve builds pressure until something gives.',
  'Check the direction of rotation with both ports open; guard couplings and shaft ends; wear eye protection.',
  'Never feel for a leak by hand: oil under pressure pierces skin. Hot oil burns, and oil on a floor is slippery.',
  'Local codes and qualified people decide how the pump is fitted, started and guarded; where they differ from this page, they hold.',
  'The program that wrote this page watches and warns. It is not a safety device.',
];

export const HOW_TO_VERIFY: readonly string[] = [
  'Any PDF reader that shows signatures tells whether a byte was changed since signing; so do pdfsig (Poppler) and slipwright verify.',
  'The data are attached to the PDF as JSON, and lie beside it with a detached signature (RFC 7515, ES256) by the same key.',
  "Compare the fingerprint of the signer's certificate with one that the workshop gave you by another way.",
];

export const CANNOT_KNOW: readonly string[] = [
  'Whether the certificate was withdrawn later: ask the workshop.',
  'The true date: it is that of the computer that signed.',
  'Who holds the key: the certificate of the key is signed by itself.',
];

export const TITLE_WORDS: Readonly<Record<OutcomeWord, string>> = {
  pass: 'pass',
  fail: 'fail',
  'not proven': 'not proven',
  measured: 'measured, not judged',
};
