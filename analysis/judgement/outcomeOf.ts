import type { OutcomeWord } from '../result.ts';

/** The word over several verdicts: a failure decides, then doubt; nothing judged is 'measured'. */
export function outcomeOf(verdicts: readonly OutcomeWord[]): OutcomeWord {
  if (verdicts.includes('fail')) return 'fail';
  if (verdicts.includes('not proven')) return 'not proven';
  if (verdicts.includes('pass')) return verdicts.includes('measured') ? 'measured' : 'pass';
  return 'measured';
}
