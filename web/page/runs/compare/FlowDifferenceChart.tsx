import { type FlowDifference, flowDifferences } from '../../../../analysis/againstTheory/flowDifferences.ts';
import { printRpm } from '../../../../analysis/formatStated.ts';
import { differenceFrom, unitOf } from '../../../../analysis/units.ts';
import { Chart, type ChartSeries } from '../../plots/Chart.tsx';
import { seriesStyle } from '../../plots/palette.ts';
import { StatedValue } from '../../words/StatedValue.tsx';
import { type ComparedRun, commonSpan } from './comparedRuns.ts';

const STEPS = 12;
const BAR = unitOf('bar(a)');
const LITRES = unitOf('l/min');

/** A speed of one run belongs to the other's range if it lies so near to it [1]. */
const SPEED_REACH = 0.04;

type Spoken = { readonly speedRevPerS: number; readonly along: readonly FlowDifference[] };

/** Differences along the pressures that both have measured, at the speeds of this run that the other reaches too. */
function differencesOf(now: ComparedRun, first: ComparedRun): readonly Spoken[] {
  if (now.law === null || first.law === null) return [];
  const pressures = commonSpan(now.law.range.differentialPressurePa, first.law.range.differentialPressurePa);
  if (pressures === null) return [];
  const [low, high] = pressures;
  const [slowest, fastest] = first.law.range.speedRevPerS;
  const [coolest, hottest] = now.law.range.oilTemperatureK;
  return now.groups
    .filter(
      ({ speedRevPerS }) => speedRevPerS >= slowest * (1 - SPEED_REACH) && speedRevPerS <= fastest * (1 + SPEED_REACH),
    )
    .map(({ speedRevPerS }) => ({
      speedRevPerS,
      along: flowDifferences(
        now.view,
        first.view,
        Array.from({ length: STEPS + 1 }, (_, step) => ({
          speedRevPerS,
          differentialPressurePa: low + ((high - low) * step) / STEPS,
          oilTemperatureK: (coolest + hottest) / 2,
        })),
      ),
    }));
}

function seriesOf({ speedRevPerS, along }: Spoken, index: number): ChartSeries {
  const bar = ({ at }: FlowDifference): number => differenceFrom(at.differentialPressurePa, BAR);
  return {
    label: `${printRpm(speedRevPerS)} r/min`,
    style: seriesStyle(index),
    line: along.map((each) => [bar(each), differenceFrom(each.flowM3PerS.difference.value, LITRES)]),
    band: along.map((each) => {
      const { value, expandedUncertainty } = each.flowM3PerS.difference;
      return {
        x: bar(each),
        low: differenceFrom(value - expandedUncertainty, LITRES),
        high: differenceFrom(value + expandedUncertainty, LITRES),
      };
    }),
    points: [],
    openPoints: [],
  };
}

/** Where the difference stands furthest out of its uncertainty: that is what may be said of it. */
function clearest(spoken: readonly Spoken[]): FlowDifference | null {
  const times = ({ flowM3PerS: { difference } }: FlowDifference): number =>
    Math.abs(difference.value) / difference.expandedUncertainty;
  return spoken
    .flatMap(({ along }) => along)
    .reduce<FlowDifference | null>((best, each) => (best === null || times(each) > times(best) ? each : best), null);
}

function Sentence({
  now,
  first,
  found,
}: {
  readonly now: string;
  readonly first: string;
  readonly found: FlowDifference;
}) {
  const { difference, agrees } = found.flowM3PerS;
  const pressure = differenceFrom(found.at.differentialPressurePa, BAR).toFixed(1);
  const where = `at ${printRpm(found.at.speedRevPerS)} r/min and ${pressure} bar`;
  const size = { ...difference, value: Math.abs(difference.value) };
  return (
    <p class={agrees ? '' : 'look-here'} data-testid="flow-difference">
      {agrees
        ? `${now} and ${first} deliver the same within the uncertainty of their difference; furthest apart ${where}: `
        : `${now} delivers ${difference.value > 0 ? 'more' : 'less'} than ${first}, which its uncertainty does not explain; clearest ${where}: `}
      <StatedValue stated={size} unitSymbol="l/min" hasUnit={true} />.
    </p>
  );
}

/** What a run delivers beyond the first one, by pressure, with the band of the difference. */
export function FlowDifferenceChart({ now, first }: { readonly now: ComparedRun; readonly first: ComparedRun }) {
  const spoken = differencesOf(now, first);
  const found = clearest(spoken);
  if (found === null) {
    return (
      <p>
        {now.letter} and {first.letter} have no speed and pressure in common at which both laws can be spoken.
      </p>
    );
  }
  return (
    <>
      <Sentence now={now.letter} first={first.letter} found={found} />
      <Chart
        title={`Flow of ${now.letter} less flow of ${first.letter}`}
        description={`Flow of run ${now.letter} less that of run ${first.letter} against pressure difference at ${spoken.length} speeds, with the 95 % band of the difference`}
        xLabel="pressure difference [bar]"
        yLabel="difference in flow [l/min]"
        series={spoken.map(seriesOf)}
        yRules={[{ at: 0, words: 'no difference' }]}
        note={`Both laws at the oil of ${now.letter}, where both have measured. Shaded: expanded uncertainty of the difference for 95 %; what both runs share has cancelled. Where the band holds zero, the difference means nothing.`}
      />
    </>
  );
}
