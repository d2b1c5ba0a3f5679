import type { ChannelName } from '../../../analysis/channels.ts';
import { printedUnit } from '../../../analysis/formatStated.ts';
import type { GuideState, Stillness } from '../../../analysis/guide/guideState.ts';
import { latestReading } from '../live/liveBench.ts';
import { CHANNEL_DISPLAY, CHANNEL_ORDER, shownText } from '../words/channelDisplay.ts';

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
  readonly text: string;
  readonly word: Stillness | undefined;
}) {
  const { channel, text, word } = reading;
  const { name, unitSymbol } = CHANNEL_DISPLAY[channel];
  return (
    <div class="reading" data-testid={`reading-${channel}`}>
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
      </dd>
    </div>
  );
}

/** The readings of this moment, large enough for the far side of the bench. */
export function LiveReadings({
  stillness,
  barometerPa,
}: {
  readonly stillness: GuideState['stillness'];
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
        return <Reading key={channel} channel={channel} text={shownText(channel, value, barometerPa)} word={word} />;
      })}
    </dl>
  );
}
