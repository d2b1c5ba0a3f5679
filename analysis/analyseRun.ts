import { BAROMETER_SOURCE_ID, channelSources } from './calibration/channelSources.ts';
import { analyseDelivery, statedDelivery } from './delivery/analyseDelivery.ts';
import { sweptVolumeOf } from './displacement/sweptVolume.ts';
import { analyseDryLift, statedDryLift } from './dryLift/analyseDryLift.ts';
import { runFindings } from './findings.ts';
import { judgeDeliveryDemand } from './judgement/judgeDelivery.ts';
import { judgeDryLiftDemand } from './judgement/judgeDryLift.ts';
import { outcomeOf } from './judgement/outcomeOf.ts';
import { unvouchedChannels } from './judgement/unvouchedChannels.ts';
import { oilSources } from './oil/oilStateAt.ts';
import type { LineCensus, Readings } from './readings.ts';
import type { Demand } from './records/dutyRecord.ts';
import type { HoldExclusion, RunRecord } from './records/runRecord.ts';
import type { DemandVerdict, Finding, RunResult, Theory } from './result.ts';
import { type Source, sourceTable, type Uncertain } from './uncertainty/source.ts';
import type { Stated } from './uncertainty/stated.ts';
import { stateUncertainty } from './uncertainty/stateUncertainty.ts';

/** Changes whenever the same journal would yield another number; every result and certificate carries it. */
export const ANALYSIS_VERSION = '1';

/** V_i outside these shares of V_g is more likely a wrong unit, port or record than a pump [1]. */
const PLAUSIBLE_CAPACITY_RATIO = [0.9, 1.1] as const;

export type RunEvidence = {
  readonly run: RunRecord;
  readonly readings: Readings;
  readonly census: LineCensus;
  readonly isPractice: boolean;
  /** What a person took out of the fit, in the order in which it was said. */
  readonly exclusions: readonly HoldExclusion[];
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
  return [
    ...run.bench.channels.flatMap(channelSources),
    ...oilSources(run.oil),
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

function unspoken(demand: Demand, reason: string): DemandVerdict {
  return { demand, verdict: 'not proven', speaks: false, value: null, conformityProbability: null, reason };
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
  const findings: Finding[] = runFindings(run, readings, census, isPractice);
  const demands = run.pump.duty?.demands ?? [];
  const base = [...commonSources(run), ...geometrySources];
  const stateWith =
    (sources: ReturnType<typeof sourceTable>) =>
    (uncertain: Uncertain): Stated =>
      stateUncertainty(uncertain, sources);
  const finish = (
    sources: ReturnType<typeof sourceTable>,
    parts: Pick<RunResult, 'delivery' | 'dryLift'>,
    verdicts: readonly DemandVerdict[],
  ): RunResult => {
    const judged = verdicts.map((verdict) => withoutUncalibrated(run, verdict));
    return {
      format: 'slipwright.result/1',
      analysisVersion: ANALYSIS_VERSION,
      runId: run.id,
      kind: run.kind,
      isPractice,
      census,
      findings,
      sources,
      theory: { ...theory, sweptVolumeM3PerRev: stateWith(sources)(theory.sweptVolume) },
      ...parts,
      verdicts: judged,
      outcome: outcomeOf(judged.filter(({ speaks }) => speaks).map(({ verdict }) => verdict)),
    };
  };

  if (run.kind === 'dryLift') {
    const analysis = analyseDryLift(run, readings, theory.sweptVolume.value);
    const sources = sourceTable([...base, ...analysis.sources]);
    const dryLift = statedDryLift(analysis, run, stateWith(sources));
    const { priming } = dryLift;
    if (!priming.ok) findings.push({ code: priming.reason.code, severity: 'unfit', text: priming.reason.text });
    const verdicts = demands.map((demand) =>
      priming.ok
        ? judgeDryLiftDemand(demand, { ...dryLift, priming: priming.value })
        : unspoken(demand, priming.reason.text),
    );
    return finish(sources, { delivery: null, dryLift }, verdicts);
  }

  const analysis = analyseDelivery(run, readings, theory.sweptVolume);
  const sources = sourceTable([...base, ...analysis.sources]);
  const state = stateWith(sources);
  const delivery = statedDelivery(analysis, theory.sweptVolume, state);
  const { law } = delivery;
  if (!law.ok) findings.push({ code: law.reason.code, severity: 'unfit', text: law.reason.text });
  const ratio = analysis.capacityRatio;
  if (ratio !== null && (ratio.value < PLAUSIBLE_CAPACITY_RATIO[0] || ratio.value > PLAUSIBLE_CAPACITY_RATIO[1])) {
    findings.push({
      code: 'CAPACITY_IMPLAUSIBLE',
      severity: 'warning',
      text: `The derived capacity is ${(100 * ratio.value).toFixed(1)} % of the swept volume: look for a flow meter read in the wrong unit, a wrong dimension in the pump record, or air in the oil.`,
    });
  }
  const verdicts = demands.map((demand) => {
    if (!law.ok) return unspoken(demand, law.reason.text);
    if (ratio === null) return unspoken(demand, 'No capacity was derived.');
    return judgeDeliveryDemand(demand, { law: law.value, capacityRatio: ratio, oil: run.oil, state });
  });
  return finish(sources, { delivery, dryLift: null }, verdicts);
}
