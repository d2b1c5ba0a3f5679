import { useMemo } from 'preact/hooks';
import type { TakenPoint } from '../../../analysis/guide/guideState.ts';
import { againstPrediction, type PredictedCurve, predictedCurve } from '../../../analysis/guide/predictedCurve.ts';
import type { RunRecord } from '../../../analysis/records/runRecord.ts';
import { differenceFrom, readingFrom } from '../../../analysis/units.ts';
import type { OpenRun } from '../../api.ts';
import { latestReading } from '../live/liveBench.ts';
import { Chart, type ChartSeries } from '../plots/Chart.tsx';
import { seriesStyle } from '../plots/palette.ts';
import { ask } from '../shell/ask.ts';
import { Awaited } from '../shell/Entry.tsx';
import { useAnswer } from '../shell/useAnswer.ts';
import { channelUnit, unitWords } from '../words/channelDisplay.ts';
import { unitSystem } from '../words/unitSystem.ts';

/** Points of a predicted line. */
const STEPS = 12;

/** Oil before anything was read [K]. */
const UNREAD_OIL_K = 313.15;

type Drawn = {
  readonly curve: PredictedCurve;
  readonly taken: readonly TakenPoint[];
  readonly oilTemperatureK: number;
};

function seriesAt(speedRevPerS: number, index: number, { curve, taken, oilTemperatureK }: Drawn): ChartSeries {
  const bar = (pa: number): number => differenceFrom(pa, channelUnit('deliveryPressure'));
  const flow = (si: number): number => readingFrom(si, channelUnit('flow'), 0);
  const own = taken.filter((point) => Math.abs(point.speedRevPerS - speedRevPerS) < 0.05 * speedRevPerS);
  const expected = Array.from({ length: STEPS + 1 }, (_, step) => {
    const differentialPressurePa = (step / STEPS) * curve.highestPa;
    const at = curve.expectedAt({ speedRevPerS, differentialPressurePa, oilTemperatureK });
    return at.ok ? [{ x: bar(differentialPressurePa), ...at.value }] : [];
  }).flat();
  return {
    label: `${Math.round(60 * speedRevPerS)} r/min`,
    style: seriesStyle(index),
    line: expected.map(({ x, flowM3PerS }) => [x, flow(flowM3PerS)] as const),
    band: expected.map(({ x, flowM3PerS, expandedUncertaintyM3PerS }) => ({
      x,
      low: flow(flowM3PerS - expandedUncertaintyM3PerS),
      high: flow(flowM3PerS + expandedUncertaintyM3PerS),
    })),
    points: own.map(
      ({ differentialPressurePa, flowM3PerS }) => [bar(differentialPressurePa), flow(flowM3PerS)] as const,
    ),
    openPoints: [],
  };
}

/** How the points lie, as a fitter would say it. */
function howTheyLie(curve: PredictedCurve, taken: readonly TakenPoint[]): string {
  const lying = taken.map((point) => againstPrediction(curve, point)).flatMap((at) => (at.ok ? [at.value.lies] : []));
  if (lying.length === 0) return 'No point is taken yet. The lines are what the strip sheet leads to expect.';
  const count = (where: string): number => lying.filter((lies) => lies === where).length;
  const below = count('below the curve');
  const above = count('above the curve');
  const on = `${count('on the curve')} of ${lying.length} points lie on the prediction`;
  if (below > above) return `${on}, ${below} below it: more oil slips back than the measured clearances let through.`;
  if (above > 0) return `${on}, ${above} above it: less slips back than the measured clearances would let through.`;
  return `${on}.`;
}

function Prediction({ record, run }: { readonly record: RunRecord; readonly run: OpenRun }) {
  const curve = useMemo(() => predictedCurve(record), [record]);
  const taken = run.guide.taken ?? [];
  const oilTemperatureK = taken.at(-1)?.oilTemperatureK ?? latestReading.peek()?.values.oilTemperature ?? UNREAD_OIL_K;
  // The state comes four times a second; a point is taken now and then.
  const shown = useMemo(() => {
    if (!curve.ok) return null;
    const drawn = { curve: curve.value, taken, oilTemperatureK };
    return {
      words: howTheyLie(curve.value, taken),
      series: curve.value.speedsRevPerS.map((speed, index) => seriesAt(speed, index, drawn)),
    };
  }, [curve, taken.length, Math.round(oilTemperatureK), unitSystem.value]);
  return useMemo(() => {
    if (shown === null) {
      return (
        <p class="faint">
          Nothing is drawn to expect the points by{curve.ok ? '' : `: ${curve.reason.text}`}. With a strip sheet the
          curve stands here before the first point.
        </p>
      );
    }
    return (
      <div class="predicted" data-testid="predicted">
        <Chart
          title="Flow against pressure: predicted, and as it is taken"
          description={shown.words}
          note={shown.words}
          xLabel={`pressure difference [${unitWords('deliveryPressure').replace(/\([ag]\)/, '')}]`}
          yLabel={`flow [${unitWords('flow')}]`}
          series={shown.series}
        />
      </div>
    );
  }, [shown]);
}

/** The curve that the strip sheet predicts, and the points of this run as they land on it or not. */
export function PredictedPassage({ run }: { readonly run: OpenRun }) {
  const record = useAnswer(run.id, () => ask.runRecord(run.id));
  return <Awaited answer={record}>{(value) => <Prediction record={value} run={run} />}</Awaited>;
}
