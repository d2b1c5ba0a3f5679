import { estimateDryLift } from '../../analysis/dryLift/estimate/dryLiftLimit.ts';
import { fitDryPump } from '../../analysis/dryLift/fit/fitDryPump.ts';
import { simulateDryStart } from '../../analysis/dryLift/model/simulateDryStart.ts';
import { recordDryPump } from '../coverage/dryLiftRecord.ts';
import { accepted } from '../support/accepted.ts';
import { PLAIN_START } from '../support/inventedDryStart.ts';
import { referenceLoop } from './stopwatch.ts';
import { medianComputedS } from './timedProcess.ts';

/**
 * How long a dry start takes: median of the processor's time for a call in milliseconds, and against a loop that never changes, measured in the
 * same run. Run by hand: node --import tsx tests/speed/dryLift.ts
 */

const SEED = 6;
/** A bench of this seed has films. */
const FILMS_SEED = 310082;
const RUNS = 9;
const WARMING_RUNS = 3;
const STARTS_IN_SERIES = 10;

/** Median over a few runs of so many calls each; runs before them warm the compiler up [ms a call]. */
function medianMs(work: () => number, calls = 1): number {
  const run = (): void => {
    for (let call = 0; call < calls; call += 1) {
      if (!Number.isFinite(work())) throw new Error('a timed function gave no number');
    }
  };
  for (let warming = 0; warming < WARMING_RUNS; warming += 1) run();
  return (1e3 * medianComputedS(RUNS, run)) / calls;
}

const leaky = {
  ...PLAIN_START,
  polytropicExponent: 1.2,
  pump: { ...PLAIN_START.pump, gapConstantM3PerSPerPa: 1e-9, entryLossS2PerM6: 1e8, carryOverShare: 0.004 },
};
const quick = accepted(recordDryPump(SEED, 'lift').input);
const blanked = accepted(recordDryPump(SEED, 'blanked').input);
const both = accepted(recordDryPump(SEED, 'lift and blanked').input);
const filming = accepted(recordDryPump(FILMS_SEED, 'lift, stands').input);
const limitOf = (input: typeof quick): number => estimateDryLift(accepted(fitDryPump(input)), 10).limitM.upper;

const timed = [
  { what: 'one simulated start', limitMs: 5, calls: 50, work: () => simulateDryStart(leaky, 20).rise.times.length },
  { what: 'fit of a start, limit and its interval', limitMs: 500, calls: 1, work: () => limitOf(quick) },
  { what: 'fit of a blanked start, the same', limitMs: 500, calls: 1, work: () => limitOf(blanked) },
  { what: 'fit of a start whose films changed', limitMs: 500, calls: 1, work: () => limitOf(filming) },
  { what: 'joint fit of three starts, the same', limitMs: 1500, calls: 1, work: () => limitOf(both) },
  {
    what: `series of ${STARTS_IN_SERIES} starts, each fitted`,
    limitMs: 3000,
    calls: 1,
    work: () => Array.from({ length: STARTS_IN_SERIES }, () => limitOf(quick)).reduce((a, b) => a + b, 0),
  },
];

const referenceMs = medianMs(() => Array.from({ length: 100 }, () => referenceLoop()).reduce((a, b) => a + b, 0), 10);
console.log(`${'median of a call'.padEnd(42)}${'ms'.padStart(10)}${'of 100 loops'.padStart(14)}   limit`);
console.log(`${'100 reference loops'.padEnd(42)}${referenceMs.toFixed(2).padStart(10)}${'1'.padStart(14)}`);
for (const { what, limitMs, calls, work } of timed) {
  const ms = medianMs(work, calls);
  const isWithin = ms <= limitMs;
  if (!isWithin) process.exitCode = 1;
  console.log(
    `${what.padEnd(42)}${ms.toFixed(2).padStart(10)}${(ms / referenceMs).toFixed(1).padStart(14)}   ${limitMs} ms: ${isWithin ? 'kept' : 'EXCEEDED'}`,
  );
}
