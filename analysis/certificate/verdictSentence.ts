import type { PumpRecord } from '../records/pumpRecord.ts';
import type { OutcomeWord } from '../result.ts';
import type { CertificateDemand } from './certificateData.ts';
import { demandName } from './demandWords.ts';

function list(demands: readonly CertificateDemand[], verdict: OutcomeWord): string {
  return demands
    .filter((entry) => entry.verdict === verdict)
    .map(({ demand }) => demandName(demand))
    .join(', ');
}

/** The verdict as a sentence, in plain words. */
export function verdictSentence(outcome: OutcomeWord, demands: readonly CertificateDemand[], pump: PumpRecord): string {
  const duty = pump.duty?.machine;
  switch (outcome) {
    case 'pass':
      return `The pump meets every demand of its duty: ${duty}.`;
    case 'fail': {
      const unproven = list(demands, 'not proven');
      const also = unproven === '' ? '' : ` Not proven: ${unproven}.`;
      return `The pump does not meet its duty, ${duty}. Failed: ${list(demands, 'fail')}.${also}`;
    }
    case 'not proven':
      return `It is not proven that the pump meets its duty, ${duty}. Not proven: ${list(demands, 'not proven')}.`;
    case 'measured':
      return duty === undefined
        ? 'Measured, not judged: nobody has stated what the machine needs of this pump.'
        : 'Measured, not judged: the runs named here do not decide a demand with calibrated instruments.';
  }
}
