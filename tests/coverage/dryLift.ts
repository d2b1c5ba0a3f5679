import { median } from 'simple-statistics';
import { z } from 'zod';
import { binomialBelow } from './coverage.ts';
import { type MeasuredLimit, measureDryLimit } from './dryLiftMeasure.ts';
import { EVIDENCE, type Evidence, recordDryPump } from './dryLiftRecord.ts';

/**
 * `node --import tsx tests/coverage/dryLift.ts COUNT SEED`: how often the 95 % interval of the dry lift limit holds the truth,
 * on so many practice benches whose instruments and papers are off by draws from what they state. Beside it the width over
 * that of an oracle who knows carry-over and exponent of the bench, and over that of one who is told its entry loss too.
 */

const options = z
  .object({ count: z.coerce.number().int().positive(), seed: z.coerce.number().int() })
  .safeParse({ count: process.argv[2], seed: process.argv[3] });
if (!options.success) {
  process.stderr.write(`tests/coverage/dryLift.ts COUNT SEED\n${z.prettifyError(options.error)}\n`);
  process.exit(2);
}
const { count, seed } = options.data;
const say = (text: string): boolean => process.stdout.write(`${text}\n`);

const startedMs = performance.now();
type JudgedBench = {
  readonly evidence: Evidence;
  readonly seed: number;
  readonly hasFilms: boolean;
  readonly measured: MeasuredLimit;
};
const limits: JudgedBench[] = [];
for (let index = 0; index < count; index += 1) {
  const evidence = EVIDENCE[index % EVIDENCE.length] ?? 'lift';
  const recorded = recordDryPump(seed + index, evidence);
  limits.push({ evidence, seed: seed + index, hasFilms: recorded.hasFilms, measured: measureDryLimit(recorded) });
}
const secondsPerBench = (performance.now() - startedMs) / 1000 / count;

/** Median width over the oracle's, of every evidence by itself [1]. */
const MOST_OVER_ORACLE = 1.5;

type Judged = Extract<MeasuredLimit, { isRefused: false }>;
const width = ({ lower, upper }: Judged['limitM']): number => upper - lower;
const holds = ({ limitM, truthM }: Judged): boolean => truthM >= limitM.lower && truthM <= limitM.upper;

/** A line of the table; gives held, judged and refused of these benches and their median width over the oracle's. */
function tell(label: string, of: typeof limits) {
  const judged = of.flatMap(({ measured }) => (measured.isRefused ? [] : [measured]));
  const held = judged.filter(holds).length;
  const ratio = median(judged.map((one) => width(one.limitM) / width(one.oracleM)));
  const overAll = median(judged.map((one) => width(one.limitM) / width(one.allKnowingM)));
  const relative = median(judged.map((one) => width(one.limitM) / 2 / one.truthM));
  const refused = of.length - judged.length;
  say(
    [
      label.padEnd(18),
      `${held}/${judged.length}`.padStart(9),
      `${((100 * held) / judged.length).toFixed(1)} %`.padStart(9),
      `${refused}`.padStart(8),
      `${(100 * relative).toFixed(1)} %`.padStart(12),
      ratio.toFixed(2).padStart(12),
      overAll.toFixed(2).padStart(17),
    ].join(''),
  );
  return { held, judged: judged.length, refused, ratio };
}

say(`${count} practice benches, seeds ${seed} to ${seed + count - 1}`);
say('');
say('evidence              holds    share refused  half width  over oracle over all-knowing');
const wide: Evidence[] = [];
for (const evidence of EVIDENCE) {
  const of = limits.filter((limit) => limit.evidence === evidence);
  if (of.some(({ measured }) => !measured.isRefused) && tell(evidence, of).ratio > MOST_OVER_ORACLE)
    wide.push(evidence);
}
const filming = limits.filter(({ hasFilms }) => hasFilms);
if (filming.some(({ measured }) => !measured.isRefused)) tell('films that change', filming);
const all = tell('all', limits);
say('');
for (const { measured, evidence, hasFilms, seed: at } of limits) {
  const films = hasFilms ? ', films' : '';
  if (measured.isRefused) say(`refused: seed ${at}, ${evidence}${films}, ${measured.code}`);
  else if (!holds(measured)) {
    const { lower, upper } = measured.limitM;
    say(
      `missed: seed ${at}, ${evidence}${films} (${measured.gapChange}), ${measured.truthM.toFixed(3)} m in ${lower.toFixed(3)} to ${upper.toFixed(3)}`,
    );
  }
}

/** From so many benches on the shares themselves are judged; fewer by what chance would hardly do [1]. */
const LARGE_STUDY = 100;
const RARE = 1e-3;
const share = all.held / all.judged;
const isHeldOften =
  count >= LARGE_STUDY ? share >= 0.9 && share <= 0.99 : binomialBelow(all.held, all.judged, 0.95) >= RARE;
const broken = [
  ...(isHeldOften ? [] : ['coverage']),
  ...(all.refused <= 0.1 * count ? [] : ['refused']),
  ...wide.map((evidence) => `width of '${evidence}'`),
];
say(broken.length === 0 ? 'all as promised' : `not as promised: ${broken.join(', ')}`);
say(`${secondsPerBench.toFixed(2)} s a bench`);
process.exitCode = broken.length === 0 ? 0 : 1;
