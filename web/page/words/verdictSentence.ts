import type { RunResult } from '../../../analysis/result.ts';
import { demandWords } from './demandWords.ts';

function list(parts: readonly string[]): string {
  if (parts.length < 2) return parts.join('');
  return `${parts.slice(0, -1).join(', ')} and ${parts.at(-1) ?? ''}`;
}

/** The outcome of a run as one sentence; first thing that is read. */
export function verdictSentence(result: RunResult): string {
  const spoken = result.verdicts.filter(({ speaks }) => speaks);
  const named = (word: string): string =>
    list(spoken.filter(({ verdict }) => verdict === word).map(({ demand }) => demandWords(demand).what));
  switch (result.outcome) {
    case 'pass':
      return `Pass. This pump meets ${spoken.length === 1 ? 'the one demand' : `all ${spoken.length} demands`} that this run can speak to.`;
    case 'fail':
      return `Fail. Not met: ${named('fail')}.`;
    case 'not proven':
      return spoken.length === 0
        ? 'Not proven. This run says nothing of what is asked of this pump.'
        : `Not proven. The uncertainty leaves open: ${named('not proven')}.`;
    case 'measured':
      return 'Measured. Nothing is asked of this pump here, or nobody vouches for a channel: the numbers stand alone.';
  }
}
