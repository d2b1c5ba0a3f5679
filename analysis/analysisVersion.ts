/** Changes whenever the same journal would yield another number; every result and certificate carries it. */
export const ANALYSIS_VERSION = '8';

/** What each version does otherwise than the one before it: why a number of an older certificate comes out differently. */
const CHANGES: Readonly<Record<string, string>> = {
  '2':
    'Calibration curves, zero checks, drift and every source of each instrument count; holds are found and the slip law is fitted ' +
    'with the scatter between holds and the full budget.',
  '3': 'A dry start is read as five events, each with its uncertainty.',
  '4': 'A dry start that did not prime is told by its most likely cause.',
  '5': 'The suction counts as at rest before a dry start only as far back as it stood where it stood at last.',
  '6': 'Oil seen in a clear riser is held against the suction channel, which stands on it where nothing was read at rest.',
  '7': 'Films that dry or wet in a dry start open and shut a share of the gap with its entry, not the gap alone.',
  '8': 'A dry start that does not tell whether its leak-back changed is fitted as one in which it may have: its limit has a wider interval.',
};

/**
 * Why another version of the analysis may give other numbers.
 *
 * @param then - the version that a certificate was made with [-]
 * @param now - the version that does it anew, a later one [-]
 * @returns a sentence or more for each version in between, oldest first; empty where the two are the same [-]
 */
export function changesBetween(then: string, now: string): readonly string[] {
  return Object.entries(CHANGES)
    .filter(([version]) => Number(version) > Number(then) && Number(version) <= Number(now))
    .map(([version, text]) => `version ${version}: ${text}`);
}
