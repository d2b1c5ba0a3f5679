import { z } from 'zod';
import { binomialBelow } from './coverage.ts';
import { type DrawnStart, drawStart, type EventError, type MeasuredPriming, measurePriming } from './primingBench.ts';

/**
 * `node --import tsx tests/coverage/priming.ts COUNT SEED`: on so many practice starts above the limit and as many below it, how
 * often 'primed' is found where it was not, or missed where it was, and how well the events are timed.
 */

const options = z
  .object({ count: z.coerce.number().int().positive(), seed: z.coerce.number().int() })
  .safeParse({ count: process.argv[2], seed: process.argv[3] });
if (!options.success) {
  process.stderr.write(`tests/coverage/priming.ts COUNT SEED\n${z.prettifyError(options.error)}\n`);
  process.exit(2);
}
const { count, seed } = options.data;
const say = (text: string): boolean => process.stdout.write(`${text}\n`);

/** A meter of at most this lag must time the priming to within so much [s]. */
const QUICK_METER_S = 0.05;
const QUICK_ERROR_S = 0.1;
/** Fewer intervals that hold than this are too few [1]; intervals are for 95 %. */
const LEAST_HELD = 0.9;
/** From so many starts on the share itself is judged; of fewer what chance would hardly do [1]. */
const LARGE_STUDY = 100;
const RARE = 1e-3;
/** So many of the starts below the limit must prime in truth, or the study studies nothing [1]. */
const LEAST_PRIMED = 0.9;

type Judged = { readonly drawn: DrawnStart; readonly measured: MeasuredPriming };
const seeds = Array.from({ length: count }, (_, index) => seed + index);
const judge = (drawn: DrawnStart): Judged => ({ drawn, measured: measurePriming(drawn) });
const above = seeds.map((at) => judge(drawStart(at, 'above')));
const below = seeds.map((at) => judge(drawStart(at, 'below')));
const all = [...above, ...below];
const falsely = all.filter(({ measured }) => measured.isFoundPrimed && !measured.wasPrimed);
const missed = all.filter(({ measured }) => !measured.isFoundPrimed && measured.wasPrimed);
const timed = all.flatMap(({ drawn, measured: { priming } }) => (priming === null ? [] : [{ drawn, priming }]));
const quick = timed.filter(({ drawn }) => drawn.flowLagS <= QUICK_METER_S);
const slow = timed.filter(({ drawn }) => drawn.flowLagS > QUICK_METER_S);
const late = quick.filter(({ priming }) => Math.abs(priming.errorS) > QUICK_ERROR_S);

const primedOf = (of: readonly Judged[]): number => of.filter(({ measured }) => measured.wasPrimed).length;
const seedsOf = (of: readonly Judged[]): string => of.map(({ drawn }) => drawn.seed).join(', ');
say(`${count} starts each, seeds ${seed} to ${seed + count - 1}`);
const filming = above.filter(({ drawn }) => drawn.hasFilms);
say(
  `lifts 1.1 times the limit and more: ${primedOf(above)} primed in truth, ${primedOf(filming)} of them while films sealed better than in the end`,
);
say(`lifts 0.9 times the limit and less: ${primedOf(below)} primed in truth`);
say(`falsely primed: ${falsely.length} ${seedsOf(falsely)}`);
const suspected = all.filter(({ measured }) => measured.isSuspected);
say(`suspected not to have been dry: ${suspected.length} ${seedsOf(suspected)}`);
say(`missed: ${missed.length} ${seedsOf(missed)}`);
say(`meter of ${QUICK_METER_S} s or less: ${late.length} of ${quick.length} off by more than ${QUICK_ERROR_S} s`);

const holds = ({ errorS, expandedUncertaintyS }: EventError): boolean => Math.abs(errorS) <= expandedUncertaintyS;

/** A line of the table; says whether the intervals held as often as those for 95 % do. */
function tell(label: string, errors: readonly EventError[]): boolean {
  const held = errors.filter(holds).length;
  const rising = (of: readonly number[]): number[] => [...of].sort((a, b) => a - b);
  const sizes = rising(errors.map(({ errorS }) => Math.abs(errorS)));
  const half = rising(errors.map(({ expandedUncertaintyS }) => expandedUncertaintyS));
  const at = (of: readonly number[], share: number): string =>
    (of[Math.floor(share * (of.length - 1))] ?? Number.NaN).toFixed(3);
  say(
    `${label.padEnd(22)} holds ${`${held}/${errors.length}`.padEnd(8)} error: median ${at(sizes, 0.5)} s, largest ${at(sizes, 1)} s; stated: median ${at(half, 0.5)} s`,
  );
  if (count < LARGE_STUDY) return binomialBelow(held, errors.length, 0.95) >= RARE;
  return held >= LEAST_HELD * errors.length;
}
const primingOf = (of: typeof timed): readonly EventError[] => of.map(({ priming }) => priming);
tell('priming, quick meter', primingOf(quick));
const isSlowHeld = tell('priming, slow meter', primingOf(slow));
for (const name of ['motorStart', 'firstSuction', 'oilAtInlet', 'oilAtOutlet'] as const) {
  tell(
    name,
    all.flatMap(({ measured }) => measured.events[name] ?? []),
  );
}
for (const { drawn, priming } of timed.filter((one) => !holds(one.priming))) {
  say(
    `not held: seed ${drawn.seed}, lag ${drawn.flowLagS} s, ${priming.errorS.toFixed(3)} s, stated ${priming.expandedUncertaintyS.toFixed(3)} s`,
  );
}
const isAsPromised =
  falsely.length === 0 &&
  missed.length === 0 &&
  suspected.length === 0 &&
  late.length === 0 &&
  isSlowHeld &&
  primedOf(below) >= LEAST_PRIMED * count;
say(isAsPromised ? 'all as promised' : 'not as promised');
process.exitCode = isAsPromised ? 0 : 1;
