import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import type { Server } from 'node:http';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { median } from 'simple-statistics';
import { openArchive } from '../../rig/archive/openArchive.ts';
import { archiveCabinet } from '../../web/server/archiveCabinet.ts';
import { certificateFiling } from '../../web/server/certificateFiling.ts';
import { createApp } from '../../web/server/createApp.ts';
import { addressOf, closeServer, listen } from '../../web/server/listen.ts';
import { inventedBench } from '../support/benchRecord.ts';
import { launchBrowser } from '../support/browser.ts';
import { buildPage } from '../support/builtPage.ts';
import { testDependencies } from '../support/webDependencies.ts';
import { BIG_RUN, writeBigRun } from './bigRun.ts';
import { timedProcess } from './timedProcess.ts';

/**
 * How long a person waits for the page, in a real browser: what comes first, an hour at 1000 readings a second, and a closer look
 * at it. Medians by the clock, which a busy machine lengthens: its load is told beside.
 * Run by hand: node --import tsx tests/speed/page.ts
 */

const SEED = 1;
const FIRST_LOADS = 5;
const OPENINGS = 5;
const PROJECT = fileURLToPath(new URL('../..', import.meta.url));

/** Seven looks, each closer or further on than the last. */
const LOOKS = ['closer', 'closer', 'later', 'closer', 'closer', 'earlier', 'wider'] as const;

function tell(what: string, value: number, unit: string, limit: number | null): void {
  const isWithin = limit === null || value <= limit;
  const verdict = limit === null ? '' : `${limit} ${unit}: ${isWithin ? 'kept' : 'EXCEEDED'}`;
  console.log(`${what.padEnd(56)} ${`${value.toFixed(0)} ${unit}`.padStart(12)}   ${verdict}`.trimEnd());
  if (!isWithin) process.exitCode = 1;
}

function importBigRun(folder: string): string {
  const [csv, bench, archive] = ['run.csv', 'bench.json', 'archive'].map((name) => join(folder, name));
  if (csv === undefined || bench === undefined || archive === undefined) throw new Error('names');
  writeBigRun(csv, SEED);
  writeFileSync(bench, JSON.stringify(inventedBench()));
  timedProcess(
    [
      ...[join(PROJECT, 'rig/slipwright.mjs'), 'import', csv, '--archive', archive, '--bench', bench],
      ...['--pump', join(PROJECT, 'samples/pumps/dredger-feed-pump.json')],
      ...['--conditions', join(PROJECT, 'samples/conditions/practice-conditions.json')],
      ...['--operator', 'nobody (invented)', '--started-at', '2026-06-01T08:00:00Z'],
    ],
    folder,
  );
  rmSync(csv);
  return archive;
}

/** Bytes over the wire and the first paint of a browser that was never here. */
async function firstLoad(browser: Browser, base: string): Promise<{ readonly kB: number; readonly paintMs: number }> {
  const page = await (await browser.newContext()).newPage();
  const network = await page.context().newCDPSession(page);
  await network.send('Network.enable');
  let bytes = 0;
  network.on('Network.loadingFinished', ({ encodedDataLength }) => {
    bytes += encodedDataLength;
  });
  await page.goto(base, { waitUntil: 'load' });
  await page.getByTestId('connection').waitFor();
  await page.evaluate('document.fonts.ready.then(() => undefined)');
  const paintMs: number = await page.evaluate(
    `new Promise((resolve) => new PerformanceObserver((list) => resolve(list.getEntries().at(-1).startTime))
      .observe({ type: 'paint', buffered: true }))`,
  );
  await page.context().close();
  return { kB: bytes / 1024, paintMs };
}

/** Milliseconds from the next click until `isThere`, looked at before every frame, holds and that frame is drawn. */
async function clickedUntil(page: Page, isThere: string, click: () => Promise<void>): Promise<number> {
  // Nothing is awaited here: the promise is of a click that is still to come.
  await page.evaluate(`void (globalThis.waited = new Promise((resolve) => addEventListener('click', (event) => {
    const look = () => (${isThere} ? requestAnimationFrame(() => resolve(performance.now() - event.timeStamp)) : requestAnimationFrame(look));
    look();
  }, { once: true, capture: true })))`);
  await click();
  return page.evaluate('globalThis.waited');
}

async function openBigRun(browser: Browser, base: string): Promise<{ readonly page: Page; readonly shownMs: number }> {
  const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  await page.goto(`${base}/#/runs`);
  const link = page.getByTestId('run-table').getByRole('link').first();
  await link.waitFor();
  const isDrawn = `document.querySelector('.time-bands [data-band="flow"] path[fill="none"]')?.getAttribute('d').length > 1000`;
  return { page, shownMs: await clickedUntil(page, isDrawn, () => link.click()) };
}

async function zoomMs(page: Page, button: string): Promise<number> {
  const rows: string = await page.evaluate(`document.querySelector('[data-drawing][data-rows]').dataset.span`);
  const isCloser = `document.querySelector('[data-drawing][data-rows]').dataset.span !== ${JSON.stringify(rows)}`;
  return clickedUntil(page, isCloser, () => page.getByRole('button', { name: button, exact: true }).click());
}

async function timeAll(browser: Browser, base: string): Promise<void> {
  const loads = [];
  for (let load = 0; load < FIRST_LOADS; load += 1) loads.push(await firstLoad(browser, base));
  tell('first load, all that comes over the wire', median(loads.map(({ kB }) => kB)), 'KB', 150);
  tell('first paint', median(loads.map(({ paintMs }) => paintMs)), 'ms', 1000);

  const shown: number[] = [];
  for (let opening = 0; opening < OPENINGS; opening += 1) {
    const { page, shownMs } = await openBigRun(browser, base);
    shown.push(shownMs);
    if (opening < OPENINGS - 1) await page.context().close();
    else {
      // Read from the journal once; a look before that is drawn from what is kept.
      await page.locator('[data-drawing][data-rows]').waitFor();
      const looks: number[] = [];
      for (const button of LOOKS) looks.push(await zoomMs(page, button));
      tell(`run of ${BIG_RUN.rows} rows, click to its record`, median(shown), 'ms', 1000);
      tell('  the first time of all', shown[0] ?? Number.NaN, 'ms', null);
      tell('  a closer look, click to its drawing', median(looks), 'ms', 150);
      tell('  the slowest of them', Math.max(...looks), 'ms', null);
    }
  }
}

const folder = mkdtempSync(join(tmpdir(), 'slipwright-speed-'));
let server: Server | null = null;
let browser: Browser | null = null;
try {
  const archive = openArchive(importBigRun(folder));
  const cabinet = archiveCabinet(archive, inventedBench(), false, certificateFiling(archive));
  server = await listen(createApp({ ...testDependencies([], await buildPage()), archive: cabinet }), 0);
  browser = await launchBrowser();
  await timeAll(browser, addressOf(server));
} finally {
  await browser?.close();
  if (server !== null) await closeServer(server);
  rmSync(folder, { recursive: true, force: true });
}
const loads = loadavg().map((load) => load.toFixed(1));
console.log(`load of this machine meanwhile: ${loads.join(', ')}`);
process.exit();
