import { demandValue } from '../../analysis/certificate/demandWords.ts';
import { formatProbability, formatStated, type PrintedValue, printRpm } from '../../analysis/formatStated.ts';
import type { DemandVerdict, RunResult } from '../../analysis/result.ts';
import type { Stated } from '../../analysis/uncertainty/stated.ts';
import { unitOf } from '../../analysis/units.ts';

/** Budget lines shown for the value that the pump is judged by. */
const BUDGET_LINES = 5;

function inOneLine({ value, expandedUncertainty, unit }: PrintedValue): string {
  return `${value} ± ${expandedUncertainty} ${unit}`.trimEnd();
}

function printed(stated: Stated, unit: string): string {
  return inOneLine(formatStated(stated, unitOf(unit)));
}

function deliveryLines({ delivery, theory }: RunResult): string[] {
  if (delivery === null) return [];
  const { law, holds, capacityRatio } = delivery;
  const lines = [`${holds.length} holds`];
  if (!law.ok) return [...lines, law.reason.text];
  const { stated } = law.value;
  lines.push(
    `derived capacity V_i  ${printed(stated.derivedCapacityM3PerRev, 'cm3/rev')}`,
    `swept volume V_g      ${printed(theory.sweptVolumeM3PerRev, 'cm3/rev')} (${theory.basis})`,
  );
  if (capacityRatio !== null) lines.push(`V_i / V_g             ${printed(capacityRatio, '%')}`);
  lines.push('where the uncertainty of V_i comes from:');
  for (const { label, share } of stated.derivedCapacityM3PerRev.budget.slice(0, BUDGET_LINES)) {
    lines.push(`  ${(100 * share).toFixed(1).padStart(5)} %  ${label}`);
  }
  return lines;
}

function dryLiftLines({ dryLift }: RunResult): string[] {
  if (dryLift === null) return [];
  const { priming, staticLiftM, wetness, speedRevPerS } = dryLift;
  if (!priming.ok) return [priming.reason.text];
  const where = `lift ${staticLiftM.toFixed(3)} m, ${printRpm(speedRevPerS)} r/min, class ${wetness}`;
  return priming.value.primed
    ? [`oil came from dry in ${printed(priming.value.primingTimeS, 's')} (${where})`]
    : [`no oil came in ${priming.value.watchedForS.toFixed(1)} s (${where})`];
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
    ...deliveryLines(result),
    ...dryLiftLines(result),
    ...(result.verdicts.length > 0 ? ['demands of the machine:'] : []),
    ...result.verdicts.map(verdictLine),
    ...result.findings.map(({ severity, text }) => `${severity}: ${text}`),
  ].join('\n');
}
