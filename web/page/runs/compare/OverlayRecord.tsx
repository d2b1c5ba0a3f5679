import { useRef, useState } from 'preact/hooks';
import { printFixed } from '../../../../analysis/formatStated.ts';
import type { ReadingsWindow, RunReadings } from '../../../api.ts';
import { PlotTools } from '../../plots/PlotTools.tsx';
import { type TimeBand, TimeBands } from '../../plots/TimeBands.tsx';
import { TimeControls } from '../../plots/TimeControls.tsx';
import { decimalsOf, spanFrom, type TimeSpan } from '../../plots/timeSpan.ts';
import { useWidth } from '../../plots/useWidth.ts';
import { ask } from '../../shell/ask.ts';
import { Awaited } from '../../shell/Entry.tsx';
import { queried, setQueriedSpan } from '../../shell/route.ts';
import { useAnswer } from '../../shell/useAnswer.ts';
import { CHANNEL_ORDER } from '../../words/channelDisplay.ts';
import { overviewChannels, recordBands, recordTable } from '../record/recordBands.ts';
import { type ComparedRun, runWords } from './comparedRuns.ts';

type Channels = ReadingsWindow['channels'];

/** The bands of all runs, a channel's lines together. */
function overlaidBands(runs: readonly ComparedRun[], channels: readonly Channels[]): readonly TimeBand[] {
  const each = runs.map((run, index) =>
    recordBands(channels[index] ?? {}, run.view.run.setUp.barometerPa.value).map((band) => ({
      ...band,
      series: band.series.map((line) => ({ ...line, label: `${band.label}, ${run.letter}`, style: run.style })),
    })),
  );
  return CHANNEL_ORDER.flatMap((channel): readonly TimeBand[] => {
    const found = each.flatMap((bands) => bands.filter(({ id }) => id === channel));
    const [first] = found;
    return first === undefined ? [] : [{ ...first, series: found.flatMap(({ series }) => series) }];
  });
}

function Overlaid({
  runs,
  overviews,
}: {
  readonly runs: readonly ComparedRun[];
  readonly overviews: readonly RunReadings[];
}) {
  const { ref, widthPx } = useWidth();
  const figure = useRef<HTMLElement>(null);
  const [moving, setMoving] = useState<TimeSpan | null>(null);
  const lastS = Math.max(1e-3, ...overviews.map(({ elapsedS }) => elapsedS.at(-1) ?? 0));
  const whole: TimeSpan = [0, lastS];
  const settled = spanFrom(queried('from'), queried('to'), whole) ?? whole;
  const span = moving ?? settled;
  const [from, to] = [settled[0].toFixed(3), settled[1].toFixed(3)];
  const windows = useAnswer(`${from} ${to} ${widthPx}`, () =>
    widthPx === 0
      ? Promise.resolve([])
      : Promise.all(runs.map(({ view }) => ask.window(view.run.id, from, to, widthPx, new AbortController().signal))),
  );
  const channels = overviews.map((overview, index) => {
    const closer = windows.status === 'here' && moving === null ? windows.value[index] : undefined;
    return closer?.channels ?? overviewChannels(overview);
  });
  const bands = overlaidBands(runs, channels);
  const rest = (next: TimeSpan): void => {
    setMoving(null);
    setQueriedSpan(next[0] === 0 && next[1] === lastS ? null : next, decimalsOf(next));
  };
  return (
    <>
      <TimeControls span={span} whole={whole} onRest={rest}>
        <p class="faint" data-testid="record-stretch">
          {printFixed(span[0], 1)} s to {printFixed(span[1], 1)} s, each run from its first reading
        </p>
      </TimeControls>
      <figure class="record" ref={figure} data-testid="record">
        <div ref={ref} data-drawing>
          {widthPx > 0 && (
            <TimeBands
              widthPx={widthPx}
              description={`All channels of ${runs.length} runs over each other, each from its first reading`}
              bands={bands}
              span={span}
              whole={whole}
              stretches={[]}
              markedS={[]}
              badLines={null}
              onMove={setMoving}
              onRest={rest}
            />
          )}
        </div>
        <ul class="legend">
          {runs.map((run) => (
            <li key={run.letter}>
              <svg width="36" height="16" aria-hidden="true">
                <path
                  d="M0,8H36"
                  stroke={run.style.color}
                  stroke-width="2"
                  stroke-dasharray={run.style.dash.join(' ')}
                />
              </svg>
              {runWords(run)}
            </li>
          ))}
        </ul>
        <PlotTools title="Records over each other" table={() => recordTable(bands, span)} figure={figure} />
      </figure>
    </>
  );
}

/** The records of all runs over each other, each from its first reading on. */
export function OverlayRecord({ runs }: { readonly runs: readonly ComparedRun[] }) {
  const ids = runs.map(({ view }) => view.run.id);
  const overviews = useAnswer(ids.join(), () => Promise.all(ids.map(ask.readings)));
  return <Awaited answer={overviews}>{(value) => <Overlaid runs={runs} overviews={value} />}</Awaited>;
}
