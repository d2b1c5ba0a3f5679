import { useEffect, useState } from 'preact/hooks';
import { latestReading } from '../live/liveBench.ts';
import { CHANNEL_DISPLAY, CHANNEL_ORDER, shownText, unitWords } from '../words/channelDisplay.ts';

/** A voice that reads the page says the readings so often, and never in between [ms]. */
const SPOKEN_EVERY_MS = 20_000;

/** How many of them, the first in a fitter's order. */
const SPOKEN = 5;

function spoken(barometerPa: number): string {
  const latest = latestReading.peek();
  if (latest === null) return 'No readings.';
  return CHANNEL_ORDER.filter((channel) => latest.values[channel] !== undefined)
    .slice(0, SPOKEN)
    .map((channel) => {
      const value = latest.values[channel] ?? null;
      return `${CHANNEL_DISPLAY[channel].name} ${shownText(channel, value, barometerPa)} ${unitWords(channel)}`;
    })
    .join(', ');
}

/** The readings for those who hear the page: politely, now and then, while a run is recorded. */
export function SpokenReadings(of: { readonly barometerPa: number; readonly isRecording: boolean }) {
  const [text, setText] = useState('');
  useEffect(() => {
    if (!of.isRecording) return;
    const saying = setInterval(() => setText(spoken(of.barometerPa)), SPOKEN_EVERY_MS);
    return () => clearInterval(saying);
  }, [of.isRecording, of.barometerPa]);
  return (
    <p class="heard-only" aria-live="polite">
      {text}
    </p>
  );
}
