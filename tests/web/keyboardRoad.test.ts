import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from '../support/browser.ts';
import { buildPage } from '../support/builtPage.ts';
import { roadScreen } from './roadScreen.ts';

const START_SERVER = new URL('../../web/server/startServer.ts', import.meta.url).href;
const SEED = 62;
const READY_MS = 30_000;

let folder: string;
let port: number;
let browser: Browser;
let pageFolder: string;
let program: ChildProcess | null = null;
const complaints: string[] = [];

async function freePort(): Promise<number> {
  const probe = createServer();
  probe.listen(0, '127.0.0.1');
  await once(probe, 'listening');
  const address = probe.address();
  probe.close();
  if (address === null || typeof address === 'string') throw new Error('no port');
  return address.port;
}

/** The whole program in a process of its own, so that it can be killed. */
async function startProgram(): Promise<void> {
  const options = { archive: join(folder, 'archive'), port, scenario: 'healthy', seed: SEED, speedUp: 20 };
  const script = `
    const { startServer } = await import(${JSON.stringify(START_SERVER)});
    const running = await startServer(${JSON.stringify(options)}, ${JSON.stringify(pageFolder)});
    process.on('SIGINT', () => running.close().then(() => process.exit(0)));
    console.log('ready');`;
  const child = spawn(process.execPath, ['--import', 'tsx', '--input-type=module', '--eval', script], {
    env: { ...process.env, SLIPWRIGHT_KEYS: join(folder, 'keys') },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  program = child;
  await new Promise<void>((resolve, reject) => {
    const late = setTimeout(() => reject(new Error('the program did not start')), READY_MS);
    child.stdout?.on('data', (piece) => {
      if (!String(piece).includes('ready')) return;
      clearTimeout(late);
      resolve();
    });
  });
}

async function killProgram(signal: 'SIGKILL' | 'SIGINT'): Promise<void> {
  const child = program;
  program = null;
  if (child === null || child.exitCode !== null) return;
  const gone = once(child, 'exit');
  child.kill(signal);
  await gone;
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'slipwright-keyboard-'));
  port = await freePort();
  pageFolder = await buildPage();
  await startProgram();
  browser = await launchBrowser();
}, 60_000);

afterAll(async () => {
  await browser?.close();
  await killProgram('SIGINT');
  rmSync(folder, { recursive: true, force: true });
});

async function openBench(): Promise<Page> {
  const page = await (await browser.newContext(roadScreen())).newPage();
  page.on('console', (message) => {
    // While the program is away the browser says so itself.
    const isOfTheKill = /ERR_CONNECTION_REFUSED|ERR_INCOMPLETE_CHUNKED|ERR_CONNECTION_RESET/.test(message.text());
    if ((message.type() === 'error' || message.type() === 'warning') && !isOfTheKill) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(String(error)));
  await page.goto(`http://127.0.0.1:${port}/#/bench`);
  await page.getByTestId('start-form').waitFor();
  return page;
}

/** What the focus stands on: a field by its name, everything else by its words. */
const FOCUSED = `(() => {
  const at = document.activeElement;
  return at?.getAttribute('name') ?? at?.textContent?.trim() ?? '';
})()`;

/** Goes on with Tab until the focus stands there. */
async function tabTo(page: Page, wanted: string): Promise<void> {
  for (let press = 0; press < 150; press += 1) {
    await page.keyboard.press('Tab');
    const at: unknown = await page.evaluate(FOCUSED);
    if (at === wanted) return;
  }
  throw new Error(`150 times Tab do not lead to ${wanted}`);
}

async function typeInto(page: Page, fields: readonly (readonly [name: string, text: string])[]): Promise<void> {
  for (const [name, text] of fields) {
    await tabTo(page, name);
    await page.keyboard.press('ControlOrMeta+A');
    await page.keyboard.type(text);
  }
}

async function pressOn(page: Page, words: string): Promise<void> {
  await tabTo(page, words);
  await page.keyboard.press('Enter');
}

/** Starts what stands in the start form, by keyboard; the cautions are confirmed once a page. */
async function startRun(page: Page, isFirst: boolean): Promise<void> {
  await typeInto(page, [['operator', 'A. Fitter (invented)']]);
  if (isFirst) {
    await tabTo(page, 'cautions');
    await page.keyboard.press('Space');
  }
  await pressOn(page, 'Start recording');
  await page.getByTestId('run-clock').waitFor();
}

describe('the whole road by keyboard alone', () => {
  it('leads from a pump of one’s own to its certificate, over a killed program, a second browser looking on', async () => {
    const page = await openBench();
    await pressOn(page, 'Write a record for your own pump');
    await page.getByTestId('pump-form').waitFor();
    await typeInto(page, [
      ['name', 'Scavenge pump (invented)'],
      ['serialNumber', 'SP-9'],
      ['speedRangeRevPerS.min', '300'],
      ['speedRangeRevPerS.max', '1200'],
    ]);
    await tabTo(page, 'geometry.kind');
    await page.keyboard.press('End');
    await page.reload();
    // Nothing typed is lost, and a bare number has got its unit.
    expect(await page.getByLabel('what it is called').inputValue()).toBe('Scavenge pump (invented)');
    expect(await page.getByLabel('slowest speed').inputValue()).toBe('300 r/min');
    await typeInto(page, [
      ['geometry.sweptVolumeM3PerRev.value', '13.9'],
      ['geometry.sweptVolumeM3PerRev.standardUncertainty', '0.1 cm3/rev'],
      ['geometry.statedBy', 'works drawing (invented)'],
    ]);
    await pressOn(page, 'File the pump record');
    await page.getByRole('heading', { name: 'Scavenge pump (invented)' }).waitFor();

    await page.keyboard.press('Home');
    await page.goto(`http://127.0.0.1:${port}/#/bench`);
    await page.getByTestId('start-form').waitFor();
    await tabTo(page, 'pumpId');
    await page.keyboard.type('SP-9');
    await startRun(page, true);
    expect(await page.getByTestId('run-bar').textContent()).toContain('Scavenge pump (invented)');

    const onlooker = await openRunAt(await secondBrowser());
    const isMarked = page.waitForResponse((response) => response.url().endsWith('/marks') && response.ok());
    await page.keyboard.press('3');
    await isMarked;
    expect(await onlooker.getByTestId('run-bar').textContent()).toContain('Scavenge pump (invented)');

    await killProgram('SIGKILL');
    await page.getByText('The program does not answer').first().waitFor();
    await startProgram();
    await page.getByTestId('lost-run').waitFor({ timeout: READY_MS });
    await onlooker.getByTestId('lost-run').waitFor({ timeout: READY_MS });
    await page.getByTestId('start-form').waitFor();

    await startRun(page, false);
    await page.getByTestId('verdict').waitFor({ timeout: 60_000 });
    expect(await page.getByTestId('verdict').textContent()).toContain('Measured');
    await page.getByTestId('file-certificate').waitFor();
    await pressOn(page, 'File certificate');
    await page.getByTestId('filed').waitFor();
    expect(await page.getByTestId('filed').textContent()).toContain('SPECIMEN');
    // The recorder outlived the program and sealed the run, with the mark that was set by one key.
    const runs: unknown = await (await page.request.get(`http://127.0.0.1:${port}/api/runs`)).json();
    expect(runs).toMatchObject([{ ending: 'completed' }, { ending: 'stopped' }]);
    const cutShort = Array.isArray(runs) ? String(Reflect.get(Object(runs[1]), 'id')) : '';
    const view: unknown = await (await page.request.get(`http://127.0.0.1:${port}/api/runs/${cutShort}`)).json();
    const { marks, closing } = Object(view);
    expect(marks).toMatchObject([{ text: 'knock or rattle' }]);
    expect(closing).toMatchObject({ reason: 'the program that recorded went away' });
    expect(complaints).toEqual([]);
  }, 150_000);
});

async function secondBrowser(): Promise<Page> {
  const page = await (await browser.newContext({ viewport: { width: 768, height: 900 } })).newPage();
  page.on('pageerror', (error) => complaints.push(String(error)));
  return page;
}

async function openRunAt(page: Page): Promise<Page> {
  await page.goto(`http://127.0.0.1:${port}/#/bench`);
  await page.getByTestId('run-bar').waitFor();
  return page;
}
