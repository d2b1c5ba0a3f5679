import { analyseRun } from '../../analysis/analyseRun.ts';
import type { RunResult } from '../../analysis/result.ts';
import type { Stated } from '../../analysis/uncertainty/stated.ts';
import type { Figure, Measured, OracleHalfWidths } from './figures.ts';
import type { RecordedBench } from './recordHealthy.ts';

/** How an oracle is asked: with the bench and what the run says of it. */
export type Oracle = (bench: RecordedBench, result: RunResult) => OracleHalfWidths;

function verdictValue(result: RunResult, id: string): Stated | null {
  return result.verdicts.find(({ demand }) => demand.id === id)?.value ?? null;
}

function figure(stated: Stated, truth: number): Figure {
  return { value: stated.value, halfWidth: stated.expandedUncertainty, truth };
}

/** Everything that a run says of its bench, beside what was true and what an oracle would say. */
export function measureDelivery(bench: RecordedBench, oracle: Oracle): Measured {
  const { run, decoded, truth } = bench;
  const { readings, census, isPractice } = decoded;
  const result = analyseRun({ run, readings, census, isPractice, exclusions: [] });
  const law = result.delivery?.law;
  if (law === undefined || !law.ok) return { isRefused: true, code: law?.reason.code ?? 'NO_DELIVERY' };
  const flow = verdictValue(result, 'feed-flow');
  const efficiency = verdictValue(result, 'efficiency');
  if (flow === null || efficiency === null) return { isRefused: true, code: 'NOT_JUDGED' };
  const outlook = result.delivery?.fitted?.outlook[0];
  if (outlook === undefined) return { isRefused: true, code: 'NO_OUTLOOK' };
  return {
    isRefused: false,
    figures: {
      capacity: figure(law.value.stated.derivedCapacityM3PerRev, truth.derivedCapacityM3PerRev),
      slip: figure(outlook.slipM3PerS, truth.slipFlowM3PerS),
      efficiency: figure(efficiency, truth.volumetricEfficiency),
      flow: figure(flow, truth.portFlowM3PerS),
    },
    oracleHalfWidths: oracle(bench, result),
  };
}
