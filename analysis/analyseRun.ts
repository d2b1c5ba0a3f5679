import { ANALYSIS_VERSION } from './analysisVersion.ts';
import { BAROMETER_SOURCE_ID, channelSources } from './calibration/channelSources.ts';
import { analyseDelivery } from './delivery/analyseDelivery.ts';
import { deliveryFindings } from './delivery/deliveryFindings.ts';
import { speakerOf, statedDelivery } from './delivery/statedDelivery.ts';
import { sweptVolumeOf } from './displacement/sweptVolume.ts';
import { analyseBlanked, analyseDryLift } from './dryLift/analyseDryLift.ts';
import { dryLiftFindings } from './dryLift/dryLiftFindings.ts';
import { riserReadings } from './dryLift/riser/riserReadings.ts';
import { statedDryLift } from './dryLift/statedDryLift.ts';
import { runFindings } from './findings.ts';
import { judgeDeliveryDemand } from './judgement/judgeDelivery.ts';
import { judgeDryLiftDemand } from './judgement/judgeDryLift.ts';
import { outcomeOf } from './judgement/outcomeOf.ts';
import { unvouchedChannels } from './judgement/unvouchedChannels.ts';
import type { TrialRequest } from './monteCarlo/runTrials.ts';
import { reliefResult, suctionResult } from './notSlip/statedFurtherRuns.ts';
import { oilSources } from './oil/oilStateAt.ts';
import type { PlacedMark } from './placeMarks.ts';
import type { LineCensus, Readings } from './readings.ts';
import type { Demand } from './records/dutyRecord.ts';
import type { HoldExclusion, RunRecord } from './records/runRecord.ts';
import type { DemandVerdict, Finding, RunResult, Theory } from './result.ts';
import type { RefusalResult } from './resultSchema/statedSchema.ts';
import { holdSources } from './steady/massBalance.ts';
import { type Source, sourceTable, type Uncertain } from './uncertainty/source.ts';
import type { Stated } from './uncertainty/stated.ts';
import { stateUncertainty } from './uncertainty/stateUncertainty.ts';

export type RunEvidence = {
  readonly run: RunRecord;
  readonly readings: Readings;
  readonly census: LineCensus;
  readonly isPractice: boolean;
  /** What a person took out of the fit, in the order in which it was said. */
  readonly exclusions: readonly HoldExclusion[];
  /** What the operator marked, in the run's elapsed time; absent: nothing. */
  readonly marks?: readonly PlacedMark[];
  /** Monte Carlo trials beside the law of propagation; absent or null: none. */
  readonly trials?: TrialRequest | null;
};

/** The geometry of a record in force was computed when the record was filed; a run cannot exist without it. */
export class GeometryError extends RangeError {
  readonly code = 'GEOMETRY';
}

function theoryOf(run: RunRecord): {
  readonly sources: readonly Source[];
  readonly theory: Omit<Theory, 'sweptVolumeM3PerRev'>;
} {
  const swept = sweptVolumeOf(run.pump.geometry);
  if (!swept.ok) throw new GeometryError(`pump ${run.pump.id}: ${swept.reason.text}`);
  const { sweptVolume, flowRipple, basis, sources } = swept.value;
  return { sources, theory: { sweptVolume, flowRipple, basis } };
}

function commonSources(run: RunRecord): readonly Source[] {
  const circumstances = { onDate: run.startedAtUtc.slice(0, 10), zeroCheck: run.zeroCheck };
  return [
    ...run.bench.channels.flatMap((channel) => channelSources(channel, circumstances)),
    ...oilSources(run.oil),
    ...holdSources(),
    {
      id: BAROMETER_SOURCE_ID,
      label: 'barometer',
      kind: 'calibration',
      standardUncertainty: run.setUp.barometerPa.standardUncertainty,
      degreesOfFreedom: null,
      shape: 'normal',
      pooledAs: null,
    },
  ];
}

function demandsOf(run: RunRecord): readonly Demand[] {
  return run.pump.duty?.demands ?? [];
}

function stateWith(sources: readonly Source[]): (uncertain: Uncertain) => Stated {
  const table = sourceTable(sources);
  return (uncertain) => stateUncertainty(uncertain, table);
}

/** Verdicts of a bench that nobody vouches for are measurements. */
function withoutUncalibrated(run: RunRecord, verdict: DemandVerdict): DemandVerdict {
  const unvouched = unvouchedChannels(run);
  if (unvouched.length === 0 || !verdict.speaks) return verdict;
  return {
    ...verdict,
    verdict: 'measured',
    reason: `Measured only: no stated calibration for ${unvouched.join(', ')}.`,
  };
}

function isUnfit(findings: readonly Finding[]): boolean {
  return findings.some(({ severity }) => severity === 'unfit');
}

/** An unfit run is shown, and judged by nobody. */
function withoutUnfit(findings: readonly Finding[], verdict: DemandVerdict): DemandVerdict {
  const unfit = findings.find(({ severity }) => severity === 'unfit');
  if (unfit === undefined || !verdict.speaks) return verdict;
  return { ...verdict, verdict: 'not proven', conformityProbability: null, reason: `The run is unfit. ${unfit.text}` };
}

function unspoken(demand: Demand, reason: string): DemandVerdict {
  return { demand, verdict: 'not proven', speaks: false, value: null, conformityProbability: null, reason };
}

/** What a kind of run yields of the result. */
type Parts = Pick<RunResult, 'delivery' | 'dryLift' | 'relief' | 'suction'> & {
  readonly sources: readonly Source[];
  readonly findings: readonly Finding[];
  readonly verdicts: readonly DemandVerdict[];
};

const NO_PART = { delivery: null, dryLift: null, relief: null, suction: null } as const;

function dryLiftParts(
  { run, readings, marks = [] }: RunEvidence,
  base: readonly Source[],
  sweptVolume: Uncertain,
): Parts {
  const analysis =
    run.kind === 'blanked'
      ? analyseBlanked(run, readings, sweptVolume, base)
      : analyseDryLift(run, readings, sweptVolume, base, riserReadings(marks, run.setUp));
  const sources = [...base, ...analysis.sources];
  const dryLift = statedDryLift(analysis, run, stateWith(sources));
  const { priming } = dryLift;
  return {
    ...NO_PART,
    dryLift,
    sources,
    findings: dryLiftFindings(analysis),
    verdicts: demandsOf(run).map((demand) =>
      priming.ok
        ? judgeDryLiftDemand(demand, { ...dryLift, priming: priming.value })
        : unspoken(demand, priming.reason.text),
    ),
  };
}

function deliveryParts(evidence: RunEvidence, base: readonly Source[], sweptVolume: Uncertain): Parts {
  const { run, readings, exclusions, trials = null } = evidence;
  const analysis = analyseDelivery(run, readings, sweptVolume, exclusions, base);
  const sources = [...base, ...analysis.sources];
  const state = stateWith(sources);
  const { fitted } = analysis;
  const judged = fitted.ok
    ? { speaker: speakerOf(run, fitted.value, sources), capacityRatio: fitted.value.capacityRatio, state }
    : null;
  return {
    ...NO_PART,
    delivery: statedDelivery(run, analysis, sweptVolume, sources, trials),
    sources,
    findings: deliveryFindings(analysis, run.bench, state),
    verdicts: demandsOf(run).map((demand) =>
      judged === null ? unspoken(demand, fitted.ok ? '' : fitted.reason.text) : judgeDeliveryDemand(demand, judged),
    ),
  };
}

/** Runs that look for a pressure and judge no demand. */
function furtherParts({ run, readings, exclusions }: RunEvidence, base: readonly Source[]): Parts {
  const words = `A ${run.kind} run does not speak to the demands of the duty.`;
  const verdicts = demandsOf(run).map((demand) => unspoken(demand, words));
  const of = (found: Pick<Parts, 'relief' | 'suction' | 'sources'>, refusal: RefusalResult | null): Parts => ({
    ...NO_PART,
    ...found,
    sources: [...base, ...found.sources],
    findings: refusal === null ? [] : [{ ...refusal, severity: 'unfit' }],
    verdicts,
  });
  if (run.kind === 'relief') {
    const { relief, sources } = reliefResult(run, readings, base);
    return of({ relief, suction: null, sources }, relief.ok ? null : relief.reason);
  }
  const { suction, sources } = suctionResult(run, readings, exclusions, base);
  return of({ relief: null, suction, sources }, suction.ok ? null : suction.reason);
}

function partsOf(evidence: RunEvidence, base: readonly Source[], sweptVolume: Uncertain): Parts {
  switch (evidence.run.kind) {
    case 'delivery':
      return deliveryParts(evidence, base, sweptVolume);
    case 'dryLift':
    case 'blanked':
      return dryLiftParts(evidence, base, sweptVolume);
    case 'relief':
    case 'suction':
      return furtherParts(evidence, base);
  }
}

/**
 * Everything that one run says: what was measured, what it means, and whether the machine's demands are met.
 *
 * @param evidence - run record, readings in SI and what the decoder counted [-]
 * @returns the result, every number with its uncertainty; the pump's or the data's "no" stands inside it [-]
 * @throws GeometryError if the pump record's geometry cannot be computed
 */
export function analyseRun(evidence: RunEvidence): RunResult {
  const { run, readings, census, isPractice } = evidence;
  const { theory, sources: geometrySources } = theoryOf(run);
  const base = [...commonSources(run), ...geometrySources];
  const { sources, findings: found, verdicts, ...parts } = partsOf(evidence, base, theory.sweptVolume);
  const findings = [...runFindings(run, readings, census, isPractice), ...found];
  const judged = verdicts.map((verdict) => withoutUnfit(findings, withoutUncalibrated(run, verdict)));
  return {
    format: 'slipwright.result/2',
    analysisVersion: ANALYSIS_VERSION,
    runId: run.id,
    kind: run.kind,
    isPractice,
    census,
    findings,
    exclusions: evidence.exclusions,
    sources: sourceTable(sources),
    theory: { ...theory, sweptVolumeM3PerRev: stateWith(sources)(theory.sweptVolume) },
    ...parts,
    verdicts: judged,
    outcome: outcomeOf([
      ...judged.filter(({ speaks }) => speaks).map(({ verdict }) => verdict),
      ...(isUnfit(findings) && judged.length > 0 ? (['not proven'] as const) : []),
    ]),
  };
}
