import { signal } from '@preact/signals';
import type { LiveReading, SessionState } from '../../api.ts';
import { StripBuffer } from './stripBuffer.ts';

/** What the server last said of the bench; null until it has said anything. */
export const sessionState = signal<SessionState | null>(null);

/** False while the server does not answer. */
export const isServerThere = signal(true);

/** Counts how often a test day went on, at whichever browser. */
export const testDayNews = signal(0);

/** True from when the server was lost until a run is seen open again. */
export const wasServerAway = signal(false);

/** The newest reading; null when none came for two seconds: a stale number must not stand there. */
export const latestReading = signal<LiveReading | null>(null);

/** The last two minutes. */
export const strips = new StripBuffer();

/** Counts what is to be seen anew of them: they are read by those who draw them, when it is their turn. */
export const stripNews = signal(0);

/** Eyes read four numbers a second, not fifty. */
const SHOWN_EVERY_MS = 250;
const TRY_AGAIN_MS = 2_000;
const STALE_AFTER_MS = 2_000;

let arrivedAtMs = Number.NEGATIVE_INFINITY;
let hasNews = false;

function showNews(): void {
  if (hasNews) {
    hasNews = false;
    latestReading.value = strips.latest;
    stripNews.value += 1;
  } else if (latestReading.value !== null && performance.now() - arrivedAtMs > STALE_AFTER_MS) {
    latestReading.value = null;
  }
}

/** The browser opens a broken stream again by itself, unless the answer was no stream. */
function openStream(): void {
  const stream = new EventSource('/api/live');
  stream.addEventListener('open', () => {
    isServerThere.value = true;
  });
  stream.addEventListener('error', () => {
    isServerThere.value = false;
    wasServerAway.value = true;
    if (stream.readyState !== EventSource.CLOSED) return;
    // The browser has given up; the bench has not.
    setTimeout(openStream, TRY_AGAIN_MS);
  });
  stream.addEventListener('state', (event) => {
    const state: SessionState = JSON.parse(event.data);
    sessionState.value = state;
  });
  stream.addEventListener('testDay', () => {
    testDayNews.value += 1;
  });
  stream.addEventListener('readings', (event) => {
    const readings: readonly LiveReading[] = JSON.parse(event.data);
    strips.add(readings);
    arrivedAtMs = performance.now();
    hasNews = true;
  });
}

/** Listens to the bench for as long as the page is open. */
export function listenToBench(): void {
  openStream();
  setInterval(showNews, SHOWN_EVERY_MS);
}
