import { no, type Outcome, yes } from '../outcome.ts';
import type { Handover } from '../records/handover.ts';
import type { OutcomeWord } from '../result.ts';
import type { DryTogether } from '../resultSchema/dryTogetherSchema.ts';
import { asBuiltParts } from './asBuiltPart.ts';
import { type CertificateData, type ChainPlace, certificateData } from './certificateData.ts';
import type { CertificateRefusal } from './certificateRefusal.ts';
import { statedOnly } from './certificateStated.ts';
import {
  CANNOT_KNOW,
  CAUTIONS,
  DECISION_RULE,
  HOW_TO_VERIFY,
  SCOPE,
  TITLE_WORDS,
  UNCERTAINTY_STATEMENT,
} from './certificateWords.ts';
import type { CertifiedRun } from './certifiedRun.ts';
import { deliveryParts } from './deliveryPart.ts';
import { demandsAcrossRuns, outcomeAcross } from './demandsAcrossRuns.ts';
import { dryLiftParts, drySeriesParts, dryTogetherParts } from './dryLiftPart.ts';
import { refuseRuns } from './refuseRuns.ts';
import { benchParts, conditionParts, findingParts, furtherRunParts, runParts } from './runsPart.ts';
import { verdictSentence } from './verdictSentence.ts';

export type CertificateRequest = {
  readonly number: string;
  readonly issuedAtUtc: string;
  /** What speaks against that date, in sentences. */
  readonly dateDoubts: readonly string[];
  readonly signatory: string;
  readonly workshop: string;
  /** Null: it takes no other's place. */
  readonly replaces: CertificateData['replaces'];
  readonly place: ChainPlace;
  /** Null: nothing was stated. */
  readonly handover: Handover | null;
  readonly programVersion: string;
  readonly runs: readonly CertifiedRun[];
  /** Pairs of a lift and a blanked run among them, fitted together. */
  readonly together: readonly DryTogether[];
};

function titleOf(outcome: OutcomeWord, isSpecimen: boolean): string {
  const title = `Certificate of test: ${TITLE_WORDS[outcome]}`;
  return isSpecimen ? `SPECIMEN. ${title}` : title;
}

/** The latest delivery run's law stands beside the theory. */
function theoryPart(runs: readonly CertifiedRun[], first: CertifiedRun): CertificateData['theory'] {
  const { basis, sweptVolumeM3PerRev, flowRipple } = first.result.theory;
  const latest = runs
    .filter(({ result }) => result.delivery?.law.ok === true)
    .sort((a, b) => Date.parse(b.run.startedAtUtc) - Date.parse(a.run.startedAtUtc))[0]?.result.delivery;
  const capacity = latest?.law.ok === true ? latest.law.value.stated.derivedCapacityM3PerRev : null;
  const ratio = latest?.capacityRatio ?? null;
  return {
    basis,
    sweptVolumeM3PerRev: statedOnly(sweptVolumeM3PerRev),
    flowRipple,
    derivedCapacityM3PerRev: capacity === null ? null : statedOnly(capacity),
    capacityRatio: ratio === null ? null : statedOnly(ratio),
  };
}

/**
 * What a certificate says, from sealed runs and their results. Nothing is computed anew: values, uncertainties and
 * verdicts are those of the results.
 *
 * @param request - number, date, signatory, workshop, the certificate before this one, and the runs it rests on [-]
 * @returns the data as they are signed, or the reason why these runs do not allow a certificate [-]
 * @throws RangeError if a closing or a result belongs to another run
 */
export function buildCertificate(request: CertificateRequest): Outcome<CertificateData, CertificateRefusal> {
  const { runs } = request;
  for (const { run, closing, result } of runs) {
    if (closing.runId !== run.id) throw new RangeError(`closing: of run ${closing.runId}, expected ${run.id}`);
    if (result.runId !== run.id) throw new RangeError(`result: of run ${result.runId}, expected ${run.id}`);
  }
  const refusal = refuseRuns(runs);
  if (refusal !== null) return no(refusal);
  const [first] = runs;
  if (first === undefined) throw new RangeError('runs: none');

  const demands = [...demandsAcrossRuns(runs)];
  const outcome = outcomeAcross(demands, runs);
  const isSpecimen = runs.some(({ result }) => result.isPractice);
  const { pump } = first.run;
  return yes(
    certificateData.parse({
      format: 'slipwright.certificate/1',
      number: request.number,
      title: titleOf(outcome, isSpecimen),
      outcome,
      isSpecimen,
      sentence: verdictSentence(outcome, demands, pump),
      scope: SCOPE,
      issuedAtUtc: request.issuedAtUtc,
      dateDoubts: [...request.dateDoubts],
      signatory: request.signatory,
      workshop: request.workshop,
      programVersion: request.programVersion,
      pump,
      runs: runParts(runs),
      benches: benchParts(runs),
      conditions: conditionParts(runs),
      theory: theoryPart(runs, first),
      asBuilt: asBuiltParts(runs),
      handover: request.handover,
      delivery: deliveryParts(runs),
      dryLift: dryLiftParts(runs),
      dryLiftSeries: drySeriesParts(runs),
      dryLiftTogether: dryTogetherParts(request.together),
      furtherRuns: furtherRunParts(runs),
      demands,
      decisionRule: DECISION_RULE,
      uncertaintyStatement: UNCERTAINTY_STATEMENT,
      findings: findingParts(runs),
      cautions: [...CAUTIONS],
      verification: { how: [...HOW_TO_VERIFY], cannotKnow: [...CANNOT_KNOW, ...request.dateDoubts] },
      replaces: request.replaces,
      ...request.place,
    } satisfies CertificateData),
  );
}
