import { diagnosisWords } from '../../analysis/dryLift/diagnosisWords.ts';
import {
  intervalWords,
  limitWords,
  machineWords,
  provenWords,
  untoldWords,
} from '../../analysis/dryLift/dryLiftWords.ts';
import { EVENT_WORDS, eventLines } from '../../analysis/dryLift/eventWords.ts';
import { riserWords } from '../../analysis/dryLift/riser/riserWords.ts';
import { printRpm } from '../../analysis/formatStated.ts';
import type { DryLiftResult, RunResult } from '../../analysis/result.ts';
import { budgetLines } from './printed.ts';

const NAME_WIDTH = 26;

function line(name: string, value: string): string {
  return `  ${name.padEnd(NAME_WIDTH)}${value}`;
}

function estimateLines({ estimate, wetness }: DryLiftResult): string[] {
  // Why there is none stands among the findings.
  if (!estimate.ok) return [];
  const { limits, deadVolumeM3, carryOverShare, search } = estimate.value;
  const untold = untoldWords(estimate.value);
  const machine = machineWords(estimate.value);
  return [
    ...limitWords(estimate.value, wetness),
    ...limits.map(({ speedRevPerS, blankOffPressurePa }) =>
      line(`blank-off, ${printRpm(speedRevPerS)} r/min`, intervalWords(blankOffPressurePa, 'bar(a)')),
    ),
    line('dead volume', intervalWords(deadVolumeM3, 'cm3')),
    line('carry-over', intervalWords(carryOverShare, '%')),
    line('fit', `${search.readingCount} readings, ${search.iterations} steps from ${search.startCount} starts`),
    ...limits.slice(0, 1).flatMap(({ limitBudgetM }) => budgetLines(limitBudgetM)),
    ...(untold === null ? [] : [untold]),
    ...(machine === null ? [] : [machine]),
  ];
}

/** What a dry start says, for a terminal: proven first with its events, estimated after it. */
export function dryLiftText({ dryLift }: Pick<RunResult, 'dryLift'>): string[] {
  if (dryLift === null) return [];
  const events = eventLines(dryLift.events).map(({ name, words }) => line(EVENT_WORDS[name], words));
  return [
    provenWords(dryLift),
    ...riserWords(dryLift),
    ...diagnosisWords(dryLift.diagnosis),
    ...events,
    ...estimateLines(dryLift),
  ];
}
