import type { ChannelName } from '../../../analysis/channels.ts';
import { printedUnit } from '../../../analysis/formatStated.ts';
import { type BenchLimit, isPast } from '../../../analysis/guide/benchLimits.ts';
import type { GuideState, Stillness } from '../../../analysis/guide/guideState.ts';
import { latestReading } from '../live/liveBench.ts';
import { CHANNEL_DISPLAY, CHANNEL_ORDER, shownText } from '../words/channelDisplay.ts';
import { limitWords } from './Warnings.tsx';

const MOVING: ReadonlySet<Stillness> = new Set(['rising', 'falling', 'settling']);
const SHAPES: Readonly<Record<Stillness, string>> = {
  steady: '—',
  settling: '~',
  rising: '↗',
  falling: '↘',
  missing: '',
};

function Reading(reading: {
  readonly channel: ChannelName;
  readonly value: number | null;
  readonly word: Stillness | undefined;
  /** That is worth showing: of the pump or the house, not the far end of an instrument's range. */
  readonly limits: readonly BenchLimit[];
  readonly barometerPa: number;
}) {
  const { channel, value, word, limits, barometerPa } = reading;
  const { name, unitSymbol } = CHANNEL_DISPLAY[channel];
  const passed = value === null ? [] : limits.filter((limit) => isPast(limit, value));
  const shown = limits.filter((limit) => !limit.id.startsWith('range.') || passed.includes(limit));
  const text = shownText(channel, value, barometerPa);
  return (
    <div class={passed.length > 0 ? 'reading past' : 'reading'} data-testid={`reading-${channel}`}>
      <dt>
        {name} <span class="reading-unit">{printedUnit(unitSymbol)}</span>
      </dt>
      <dd>
        <span class="reading-value">{text}</span>
        <span class={word !== undefined && MOVING.has(word) ? 'stillness moving' : 'stillness'}>
          {word !== undefined && (
            <>
              <span aria-hidden="true">{SHAPES[word]}</span> {word}
            </>
          )}
        </span>
        {shown.map((limit) => (
          <span key={limit.id} class="reading-limit">
            {passed.includes(limit) && <span aria-hidden="true">▲ </span>}
            {limitWords(limit, barometerPa)}
          </span>
        ))}
      </dd>
    </div>
  );
}

/** The readings of this moment, large enough for the far side of the bench. */
export function LiveReadings({
  stillness,
  limits,
  barometerPa,
}: {
  readonly stillness: GuideState['stillness'];
  readonly limits: readonly BenchLimit[];
  readonly barometerPa: number;
}) {
  const latest = latestReading.value;
  if (latest === null) {
    return <p class="lead">No readings: nothing has come down the line for two seconds.</p>;
  }
  return (
    <dl class="readings" data-testid="readings">
      {CHANNEL_ORDER.map((channel) => {
        const value = latest.values[channel];
        if (value === undefined) return null;
        const word = value === null ? 'missing' : stillness[channel];
        return (
          <Reading
            key={channel}
            channel={channel}
            value={value}
            word={word}
            limits={limits.filter((limit) => limit.channel === channel)}
            barometerPa={barometerPa}
          />
        );
      })}
    </dl>
  );
}
