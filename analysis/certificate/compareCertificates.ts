import type { CertificateData } from './certificateData.ts';

/** A number that came out differently; the path names it as the data do: 'delivery.0.law.coefficients.derivedCapacityM3PerRev.value'. */
type OtherNumber = { readonly path: string; readonly filed: number; readonly today: number };
/** Anything else that came out differently: a verdict, a sentence, a part that is there in one alone. */
type OtherWord = { readonly path: string; readonly filed: unknown; readonly today: unknown };

export type CertificateComparison = {
  /** Numbers that stand in the certificate [1]. */
  readonly numbersCompared: number;
  /** In the order of the data. */
  readonly numbers: readonly OtherNumber[];
  readonly words: readonly OtherWord[];
};

function entriesOf(value: unknown): readonly (readonly [string, unknown])[] | null {
  return typeof value === 'object' && value !== null ? Object.entries(value) : null;
}

/**
 * Compares everything that two certificates say, member by member.
 *
 * @param filed - as it was filed [SI]
 * @param today - as it comes out today [SI]
 * @returns how many numbers were compared, and what differs; a number differs by its last digit already [-]
 */
export function compareCertificates(filed: CertificateData, today: CertificateData): CertificateComparison {
  const numbers: OtherNumber[] = [];
  const words: OtherWord[] = [];
  let numbersCompared = 0;

  function compare(path: string, was: unknown, is: unknown): void {
    const wasEntries = entriesOf(was);
    const isEntries = entriesOf(is);
    if (wasEntries !== null && isEntries !== null) {
      const before = new Map(wasEntries);
      const after = new Map(isEntries);
      for (const key of new Set([...before.keys(), ...after.keys()])) {
        compare(path === '' ? key : `${path}.${key}`, before.get(key), after.get(key));
      }
    } else if (typeof was === 'number' && typeof is === 'number') {
      numbersCompared += 1;
      if (!Object.is(was, is)) numbers.push({ path, filed: was, today: is });
    } else if (was !== is) {
      words.push({ path, filed: was, today: is });
    }
  }

  compare('', filed, today);
  return { numbersCompared, numbers, words };
}
