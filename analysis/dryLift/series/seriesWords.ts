import { printFixed, printRpm } from '../../formatStated.ts';
import type { DrySeries } from '../../resultSchema/drySeriesSchema.ts';

/** What a series proves, in a sentence: how often oil came, and the success rate that this proves. */
function provenBySeries(series: DrySeries): string {
  const { countedStarts, primedStarts, successRateAtLeast, speedRevPerS, staticLiftM, wetness, label } = series;
  const where = `from ${staticLiftM.toFixed(3)} m at ${printRpm(speedRevPerS)} r/min, in class ${wetness}, ${label}`;
  const often =
    countedStarts > 1
      ? `Oil came in ${primedStarts} of ${countedStarts} starts`
      : `${primedStarts === 1 ? 'Oil' : 'No oil'} came in the one start`;
  const rate =
    primedStarts === 0
      ? 'No success rate is proven.'
      : `That proves, with 95 % confidence, that at least ${printFixed(100 * successRateAtLeast, 0)} % of starts prepared alike prime.`;
  return `${often} ${where}. ${rate}`;
}

/** Where the times of further starts lie; null: too few to say. */
function toleranceWords({ tolerance, primedStarts, countedStarts }: DrySeries): string | null {
  if (tolerance === null) return null;
  const { lowerS, upperS, geometricMeanS, factor } = tolerance;
  const among = primedStarts < countedStarts ? ' of those that prime' : '';
  return `Times about ${printFixed(geometricMeanS, 2)} s: with 95 % confidence 95 % of starts prepared alike${among} take ${printFixed(lowerS, 2)} to ${printFixed(upperS, 2)} s (tolerance interval of ${primedStarts} times, factor ${printFixed(factor, 3)}).`;
}

/** Whether the starts change from one to the next. */
function trendWords({ trend }: DrySeries): string | null {
  if (trend.verdict === 'too few') return null;
  const { value, lower, upper } = trend.changePerStart;
  const percent = (share: number): string => printFixed(100 * share, 1);
  const change = `${percent(value)} % from one start to the next (95 %: ${percent(lower)} to ${percent(upper)} %)`;
  return trend.verdict === 'no sign'
    ? `No sign of a trend: the time changes by ${change}.`
    : `The starts get ${trend.verdict}: the time changes by ${change}.`;
}

/** A series in sentences, what it proves first. */
export function seriesWords(series: DrySeries): readonly string[] {
  return [provenBySeries(series), toleranceWords(series), trendWords(series)].filter((words) => words !== null);
}
