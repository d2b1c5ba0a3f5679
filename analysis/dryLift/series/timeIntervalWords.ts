import { decimalsFor, printFixed } from '../../formatStated.ts';
import type { TimeInterval } from '../estimate/timeInterval.ts';

const INTERVAL_DIGITS = 2;

/** '3.66 s (95 %: 3.36 to 4.01 s)', digits as many as the width carries; what never comes is 'never'. */
export function timeIntervalWords({ value, lower, upper }: TimeInterval): string {
  const half = lower === null || upper === null ? 0 : (upper - lower) / 2;
  const decimals = half > 0 ? Math.max(0, decimalsFor(half, INTERVAL_DIGITS)) : 1;
  const seconds = (timeS: number | null): string => (timeS === null ? 'never' : printFixed(timeS, decimals));
  const told = (timeS: number | null): string => (timeS === null ? 'never' : `${seconds(timeS)} s`);
  const ends = upper === null ? `${told(lower)} to never` : `${seconds(lower)} to ${told(upper)}`;
  return `${told(value)} (95 %: ${ends})`;
}
