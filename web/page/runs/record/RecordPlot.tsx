import { useMemo, useRef, useState } from 'preact/hooks';
import { printFixed } from '../../../../analysis/formatStated.ts';
import type { ReadingsWindow, RunReadings, RunView } from '../../../api.ts';
import { PlotTools } from '../../plots/PlotTools.tsx';
import { TimeBands } from '../../plots/TimeBands.tsx';
import { TimeControls } from '../../plots/TimeControls.tsx';
import { decimalsOf, type TimeSpan } from '../../plots/timeSpan.ts';
import { useWidth } from '../../plots/useWidth.ts';
import { Refusal } from '../../shell/Entry.tsx';
import { setQueriedSpan } from '../../shell/route.ts';
import { ChannelNumbers } from '../../words/ChannelNumbers.tsx';
import { badLinesSentence, badLineWords } from './badLineWords.ts';
import { overviewChannels, recordBands, recordTable } from './recordBands.ts';
import { useRecordWindow } from './useRecordWindow.ts';

/** Channels cut to a span, for the lowest and the highest of each. */
function valuesWithin(channels: ReadingsWindow['channels'], [fromS, toS]: TimeSpan) {
  return Object.fromEntries(
    Object.entries(channels).map(([name, { elapsedS, values }]) => [
      name,
      values.filter((_, at) => (elapsedS[at] ?? 0) >= fromS && (elapsedS[at] ?? 0) <= toS),
    ]),
  );
}

/** The record of a run over time, with what moves through it and what it says as numbers. */
export function RecordPlot(plot: {
  readonly view: RunView;
  readonly overview: RunReadings;
  readonly whole: TimeSpan;
  /** As the address has it. */
  readonly span: TimeSpan;
}) {
  const { view, overview, whole } = plot;
  const { ref, widthPx } = useWidth();
  const figure = useRef<HTMLElement>(null);
  const [moving, setMoving] = useState<TimeSpan | null>(null);
  const [isListOpen, setListOpen] = useState(false);
  const span = moving ?? plot.span;
  const { window, refusal } = useRecordWindow(view.run.id, span, widthPx, moving !== null);
  const barometerPa = view.run.setUp.barometerPa.value;
  const atOnce = useMemo(() => overviewChannels(overview), [overview]);
  const channels = window !== null && window.fromS <= span[1] && window.toS >= span[0] ? window.channels : atOnce;
  const bands = useMemo(() => recordBands(channels, barometerPa), [channels, barometerPa]);
  const rest = (to: TimeSpan): void => {
    setMoving(null);
    setQueriedSpan(to[0] === whole[0] && to[1] === whole[1] ? null : to, decimalsOf(to));
  };
  const holds = view.result.delivery?.holds ?? [];
  const badLines = window?.badLines ?? [];
  const decimals = Math.max(0, decimalsOf(span) - 1);
  const stretch = `${printFixed(span[0], decimals)} s to ${printFixed(span[1], decimals)} s`;
  return (
    <>
      <TimeControls span={span} whole={whole} onRest={rest}>
        <p class="faint" data-testid="record-stretch">
          {stretch} of {printFixed(whole[1], 0)} s
          {window !== null && `, ${window.rowCount} readings${window.isWhole ? ', each one drawn' : ''}`}
        </p>
      </TimeControls>
      <figure class="record" ref={figure} data-testid="record">
        <div
          ref={ref}
          data-drawing
          data-rows={window?.rowCount}
          data-span={window === null ? undefined : `${window.fromS} ${window.toS}`}
        >
          {widthPx > 0 && (
            <TimeBands
              widthPx={widthPx}
              description={`All channels from ${stretch}, holds shaded; lowest and highest of each stand in the table below`}
              bands={bands}
              span={span}
              whole={whole}
              stretches={holds.map(({ number, startS, endS, leftOut }) => ({
                number,
                startS,
                endS,
                isOut: leftOut !== null,
              }))}
              markedS={view.marks.map(({ elapsedS }) => elapsedS)}
              badLines={badLines}
              onMove={setMoving}
              onRest={rest}
            />
          )}
        </div>
        <Refusal text={refusal} />
        {badLines.length > 0 && <p data-testid="bad-lines">{badLinesSentence(badLines)}</p>}
        <PlotTools title={`Record of run ${view.run.id}`} table={() => recordTable(bands, span)} figure={figure} />
      </figure>
      <p class="chart-note">
        {holds.length > 0 && 'Shaded: the holds, by their numbers; dashed and in brackets where left out of the fit. '}
        Drag over a stretch to look closer; Shift and drag, or a finger, moves it; Ctrl and the wheel, or two fingers,
        look closer; a double click shows the whole run. {badLineWords}
      </p>
      <details onToggle={(event) => setListOpen(event.currentTarget.open)}>
        <summary>Lowest and highest of this stretch</summary>
        {isListOpen && (
          <ChannelNumbers channels={valuesWithin(channels, span)} barometerPa={barometerPa} isLive={false} />
        )}
      </details>
    </>
  );
}
