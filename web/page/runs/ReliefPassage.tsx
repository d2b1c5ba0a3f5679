import { printRpm } from '../../../analysis/formatStated.ts';
import type { ReliefResult } from '../../../analysis/result.ts';
import { differenceFrom, unitOf } from '../../../analysis/units.ts';
import type { RunReadings, RunView } from '../../api.ts';
import { Chart, type ChartRule } from '../plots/Chart.tsx';
import { seriesStyle } from '../plots/palette.ts';
import type { Point } from '../plots/shapes.ts';
import { ask } from '../shell/ask.ts';
import { Awaited, Entry } from '../shell/Entry.tsx';
import { useAnswer } from '../shell/useAnswer.ts';
import { statedWords } from '../words/statedWords.ts';

const BAR = unitOf('bar(a)');
const LITRES = unitOf('l/min');

/** As many as a drawing shows apart. */
const MOST_POINTS = 1_200;

type Relief = Extract<ReliefResult, { ok: true }>['value'];

const PRESSURES = [
  ['cracking', 'cracks'],
  ['fullFlow', 'passes all'],
  ['reseat', 'shuts again'],
] as const;

/** Start and stop of the motor are no part of the strokes [1]. */
const TURNING_SHARE = 0.98;

/** Flow against pressure difference as it was recorded, up and down. */
function strokePoints({ channels }: RunReadings, speedRevPerS: number): readonly Point[] {
  const { flow = [], deliveryPressure = [], suctionPressure = [], speed = [] } = channels;
  const every = Math.max(1, Math.ceil(flow.length / MOST_POINTS));
  return flow.flatMap((flowM3PerS, row): Point[] => {
    const deliveryPa = deliveryPressure[row] ?? null;
    const suctionPa = suctionPressure[row] ?? null;
    if ((speed[row] ?? 0) < TURNING_SHARE * speedRevPerS || row % every !== 0) return [];
    if (flowM3PerS === null || deliveryPa === null || suctionPa === null) return [];
    return [[differenceFrom(deliveryPa - suctionPa, BAR), differenceFrom(flowM3PerS, LITRES)]];
  });
}

function ReliefChart({ relief, readings }: { readonly relief: Relief; readonly readings: RunReadings }) {
  const rules = PRESSURES.flatMap(([name, words]): ChartRule[] => {
    const pressure = relief[name];
    return pressure.found ? [{ at: differenceFrom(pressure.differentialPressurePa.value, BAR), words }] : [];
  });
  return (
    <Chart
      title="Flow against pressure, up and down"
      description={`Flow against pressure difference while the pressure was raised and let down. ${relief.text}`}
      xLabel="pressure difference [bar]"
      yLabel="flow [l/min]"
      series={[
        {
          label: 'readings',
          style: seriesStyle(0),
          line: strokePoints(readings, relief.speedRevPerS),
          band: [],
          points: [],
          openPoints: [],
        },
      ]}
      xRules={rules}
      yIncludes={[0]}
    />
  );
}

/** What a relief run yields: where the valve cracks, passes all, and shuts again. */
export function ReliefPassage({ view, result }: { readonly view: RunView; readonly result: ReliefResult }) {
  const readings = useAnswer(view.run.id, () => ask.readings(view.run.id));
  if (!result.ok) {
    return (
      <Entry head="Relief valve">
        <p class="look-here">{result.reason.text}</p>
      </Entry>
    );
  }
  const relief = result.value;
  return (
    <Entry head="Relief valve">
      <p class="lead" data-testid="relief">
        {relief.text}
      </p>
      <Awaited answer={readings}>{(value) => <ReliefChart relief={relief} readings={value} />}</Awaited>
      <dl class="checks">
        {PRESSURES.map(([name, words]) => {
          const pressure = relief[name];
          // A valve that never opened is said once.
          if (!pressure.found && pressure.text === relief.text) return null;
          return (
            <div key={name}>
              <dt>{words}</dt>
              <dd>{pressure.found ? `at ${statedWords(pressure.differentialPressurePa, 'bar(a)')}` : pressure.text}</dd>
            </div>
          );
        })}
        {relief.hysteresisPa !== null && (
          <div>
            <dt>between cracking and shutting</dt>
            <dd>{statedWords(relief.hysteresisPa, 'bar(a)')}</dd>
          </div>
        )}
      </dl>
      <p class="faint">
        Pressure differences over the pump at {printRpm(relief.speedRevPerS)} r/min; ± is the expanded uncertainty for
        95 %.
      </p>
    </Entry>
  );
}
