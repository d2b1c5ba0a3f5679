import type { CDPSession, Page } from 'playwright-core';
import { z } from 'zod';
import { createApp } from '../../web/server/createApp.ts';
import { addressOf, closeServer, listen } from '../../web/server/listen.ts';
import { launchBrowser } from '../support/browser.ts';
import { buildPage } from '../support/builtPage.ts';
import { liveReadingsOf, recordedRun } from '../support/recordedRun.ts';
import { OPEN_RUN } from '../support/rememberingSession.ts';
import { testDependencies } from '../support/webDependencies.ts';

/**
 * The bench place in a real browser while 1,000 readings come in a second: how long its main thread works in a frame, how
 * long it leaves the screen alone, and whether its memory grows. Work is counted in the thread's own CPU time, since other
 * programs share the machine; a frame is a sixtieth of a second.
 */
const READINGS_PER_S = 1_000;
const PUSH_EVERY_MS = 20;
const WATCHED_MS = 10_000;
const FRAME_MS = 1_000 / 60;
const MOST_WORK_MS = 8;
const MOST_GAP_MS = 34;
const STRETCHES = 4;

/** By so much may the page's longest gap exceed that of an empty page on a machine that is not quiet [1]. */
const QUIET_SHARE = 1.5;

/** A slider is moved so often. */
const SLIDER_STEPS = 40;

/** Ten minutes of readings, as fast as they are taken. */
const TEN_MINUTES_S = 600;
const IN_ONE_GO = 5_000;

/** What a garbage collection leaves uneven [bytes]. */
const MOST_GROWTH_BYTES = 2_000_000;

const traceEvent = z.looseObject({
  name: z.string(),
  pid: z.number(),
  tid: z.number(),
  ts: z.number().default(0),
  tdur: z.number().default(0),
  args: z.looseObject({ name: z.string().optional() }).optional(),
});
const collected = z.object({ value: z.array(z.unknown()) });
const heapUsage = z.looseObject({ usedSize: z.number() });

type Task = { readonly atUs: number; readonly cpuUs: number };

/** Tasks of the page's main thread while `meanwhile` goes on. */
async function tasksDuring(cdp: CDPSession, meanwhile: () => Promise<void>): Promise<readonly Task[]> {
  const events: z.infer<typeof traceEvent>[] = [];
  cdp.on('Tracing.dataCollected', (data) => {
    for (const event of collected.parse(data).value) {
      const read = traceEvent.safeParse(event);
      if (read.success) events.push(read.data);
    }
  });
  await cdp.send('Tracing.start', { transferMode: 'ReportEvents', categories: 'toplevel,__metadata' });
  await meanwhile();
  const done = new Promise<void>((resolve) => cdp.once('Tracing.tracingComplete', () => resolve()));
  await cdp.send('Tracing.end');
  await done;
  const mains = events.filter(({ name, args }) => name === 'thread_name' && args?.name === 'CrRendererMain');
  return events
    .filter(({ name, pid, tid }) => /RunTask$/.test(name) && mains.some((main) => main.pid === pid && main.tid === tid))
    .map(({ ts, tdur }) => ({ atUs: ts, cpuUs: tdur }));
}

/** Work in each frame [ms], the frames with most of it first. */
function workPerFrame(tasks: readonly Task[]): readonly number[] {
  const frames = new Map<number, number>();
  const firstUs = tasks.reduce((first, { atUs }) => Math.min(first, atUs), Number.POSITIVE_INFINITY);
  for (const { atUs, cpuUs } of tasks) {
    const frame = Math.floor((atUs - firstUs) / 1e3 / FRAME_MS);
    frames.set(frame, (frames.get(frame) ?? 0) + cpuUs / 1e3);
  }
  const quiet = Math.max(0, Math.floor(WATCHED_MS / FRAME_MS) - frames.size);
  return [...frames.values(), ...Array.from({ length: quiet }, () => 0)].sort((a, b) => b - a);
}

async function heapBytes(cdp: CDPSession): Promise<number> {
  await cdp.send('HeapProfiler.collectGarbage');
  return heapUsage.parse(await cdp.send('Runtime.getHeapUsage')).usedSize;
}

/** Longest time from one frame to the next [ms]: of several stretches the least, since other programs make gaps too. */
async function longestGapMs(page: Page): Promise<number> {
  const gaps: number[] = [];
  for (let stretch = 0; stretch < STRETCHES; stretch += 1) gaps.push(await longestGapInStretchMs(page));
  return Math.min(...gaps);
}

function longestGapInStretchMs(page: Page): Promise<number> {
  return page.evaluate(
    `new Promise((resolve) => {
      const begun = performance.now();
      let last = begun;
      let longest = 0;
      requestAnimationFrame(function frame(now) {
        longest = Math.max(longest, now - last);
        last = now;
        if (now - begun < ${WATCHED_MS / STRETCHES}) requestAnimationFrame(frame);
        else resolve(longest);
      });
    })`,
  );
}

const run = recordedRun('delivery', 'healthy');
const samples = liveReadingsOf(run);
const dependencies = testDependencies([run], await buildPage());
const { session } = dependencies;
const server = await listen(createApp(dependencies), 0);
const browser = await launchBrowser();
let sent = 0;

/** The next readings, as a bench of 1,000 a second would send them. */
function push(count: number): void {
  session.pushReadings(
    Array.from({ length: count }, () => {
      const reading = samples[sent % samples.length] ?? samples[0];
      sent += 1;
      return { atS: sent / READINGS_PER_S, values: reading?.values ?? {} };
    }),
  );
}

try {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  // A machine that is not quiet leaves gaps in an empty page as well: those are not the page's own.
  const emptyGapMs = await longestGapMs(page);
  session.setState({ openRun: OPEN_RUN, linesPerS: READINGS_PER_S });
  await page.goto(`${addressOf(server)}/#/bench`);
  const beginS = performance.now();
  const pushing = setInterval(() => {
    const due = Math.round(((performance.now() - beginS) / 1e3) * READINGS_PER_S) - sent;
    if (due > 0) push(due);
  }, PUSH_EVERY_MS);
  const telling = setInterval(
    () => session.setState({ openRun: { ...OPEN_RUN, elapsedS: sent / READINGS_PER_S } }),
    250,
  );
  await page.getByTestId('predicted').waitFor();
  await page.waitForTimeout(3_000);
  const cdp = await context.newCDPSession(page);
  const gapMs = await longestGapMs(page);
  const frames = workPerFrame(await tasksDuring(cdp, () => page.waitForTimeout(WATCHED_MS)));
  const work95Ms = frames[Math.floor(0.05 * frames.length)] ?? Number.NaN;

  clearInterval(pushing);
  // The strips are full before the first weighing.
  for (let filled = 0; filled < 130 * READINGS_PER_S; filled += IN_ONE_GO) {
    push(IN_ONE_GO);
    await page.waitForTimeout(20);
  }
  await page.waitForTimeout(1_000);
  const before = await heapBytes(cdp);
  for (let more = 0; more < TEN_MINUTES_S * READINGS_PER_S; more += IN_ONE_GO) {
    push(IN_ONE_GO);
    await page.waitForTimeout(20);
  }
  await page.waitForTimeout(1_000);
  const growth = (await heapBytes(cdp)) - before;
  clearInterval(telling);

  await page.goto(`${addressOf(server)}/#/pumps/dredger-feed-pump`);
  await page.getByTestId('what-if').waitFor();
  await page.waitForTimeout(1_000);
  const sliding = workPerFrame(
    await tasksDuring(cdp, async () => {
      for (let step = 0; step < SLIDER_STEPS; step += 1) {
        await page.evaluate(
          `(() => {
            const slider = document.querySelector('[data-testid="what-if"] input[type="range"]');
            slider.value = String(${step} * 0.00001 - 0.0001);
            slider.dispatchEvent(new Event('input', { bubbles: true }));
          })()`,
        );
        await page.waitForTimeout(60);
      }
    }),
  );
  // The busiest frames are those that drew: as many as there were steps.
  const slide95Ms = sliding[Math.floor(0.05 * SLIDER_STEPS)] ?? Number.NaN;

  const channelCount = Object.keys(samples[0]?.values ?? {}).length;
  const told = [
    [
      'main thread in a frame',
      work95Ms,
      MOST_WORK_MS,
      `ms at the 95th percentile, ${(frames[0] ?? 0).toFixed(1)} ms at most`,
    ],
    [
      'frame to frame',
      gapMs,
      Math.max(MOST_GAP_MS, QUIET_SHARE * emptyGapMs),
      `ms at most, an empty page ${emptyGapMs.toFixed(1)} ms`,
    ],
    ['memory after ten minutes of readings', growth / 1e3, MOST_GROWTH_BYTES / 1e3, 'kB more'],
    ['redraw at a what-if slider', slide95Ms, FRAME_MS, 'ms at the 95th percentile'],
  ] as const;
  console.log(`live, ${READINGS_PER_S} readings a second on ${channelCount} channels`);
  for (const [what, value, limit, words] of told) {
    const isWithin = value <= limit;
    if (!isWithin) process.exitCode = 1;
    console.log(
      `${what.padEnd(42)}${value.toFixed(2).padStart(10)} ${words}   ${limit.toFixed(1)}: ${isWithin ? 'kept' : 'EXCEEDED'}`,
    );
  }
} finally {
  await browser.close();
  await closeServer(server);
}
