import { demandValue } from '../../analysis/certificate/demandWords.ts';
import { formatProbability } from '../../analysis/formatStated.ts';
import type { DemandVerdict, RunResult } from '../../analysis/result.ts';
import { deliveryText } from './deliveryText.ts';
import { dryLiftText } from './dryLiftText.ts';
import { inOneLine } from './printed.ts';

function reliefLines({ relief }: RunResult): string[] {
  if (relief === null) return [];
  return [relief.ok ? relief.value.text : relief.reason.text];
}

function suctionLines({ suction }: RunResult): string[] {
  if (suction === null) return [];
  return suction.ok ? suction.value.losses.map(({ text }) => text) : [suction.reason.text];
}

function verdictLine({ demand, verdict, speaks, value, conformityProbability, reason }: DemandVerdict): string {
  const shown = value === null ? '' : `  ${inOneLine(demandValue(demand, value))}`;
  const probability =
    conformityProbability === null ? '' : `, met with probability ${formatProbability(conformityProbability)}`;
  return `  ${(speaks ? verdict : '—').padEnd(11)} ${demand.id}${shown}${probability}. ${reason} [${demand.origin}]`;
}

/** A result as a person reads it in a terminal. Values with their expanded uncertainty for 95 %. */
export function resultText(result: RunResult): string {
  return [
    `run ${result.runId}: ${result.outcome}`,
    ...deliveryText(result),
    ...dryLiftText(result),
    ...reliefLines(result),
    ...suctionLines(result),
    ...(result.verdicts.length > 0 ? ['demands of the machine:'] : []),
    ...result.verdicts.map(verdictLine),
    ...result.findings.map(({ severity, text }) => `${severity}: ${text}`),
  ].join('\n');
}
