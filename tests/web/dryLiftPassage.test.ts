import type { Server } from 'node:http';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createApp } from '../../web/server/createApp.ts';
import { addressOf, closeServer, listen } from '../../web/server/listen.ts';
import { launchBrowser } from '../support/browser.ts';
import { buildPage } from '../support/builtPage.ts';
import { twoBlankedSpeeds } from '../support/dryStartScripts.ts';
import { dryStartScript, type PracticeRun, recordPractice } from '../support/practiceRun.ts';
import { recordedRun, testDependencies } from '../support/webDependencies.ts';
import { expectSound, openPage, type Watched } from './watchedPage.ts';

function named(recorded: PracticeRun, id: string): PracticeRun {
  return { ...recorded, run: { ...recorded.run, id } };
}

let browser: Browser;
let server: Server;
let base: string;

beforeAll(async () => {
  const runs = [
    named(recordedRun('dryLift', 'healthy'), 'lift'),
    named(recordPractice('dryLift', 'unprimable', 8, { script: dryStartScript(600, 20) }), 'not-primed'),
    named(recordPractice('blanked', 'healthy', 7, { script: twoBlankedSpeeds() }), 'blanked'),
  ];
  server = await listen(createApp(testDependencies(runs, await buildPage())), 0);
  base = addressOf(server);
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
  await closeServer(server);
});

async function openRun(id: string, width: number): Promise<Watched> {
  const watched = await openPage(browser, `${base}/#/runs/${id}`, width);
  await watched.page.getByTestId('record').waitFor();
  return watched;
}

describe('a dry start on the page', () => {
  it.each([1280, 390])('stands proven and estimated apart, and says what was not told, %d px wide', async (width) => {
    const watched = await openRun('lift', width);
    const { page } = watched;
    expect(await page.getByTestId('priming').textContent()).toMatch(/^Proven: /);
    const estimate = await page.getByTestId('dry-estimate').textContent();
    expect(estimate).toMatch(
      /Estimated: dry lift limit [\d.]+ m \(95 %: [\d.]+ to [\d.]+ m\) at 600 r\/min, in class W1/,
    );
    expect(estimate).toContain('Not told by the readings: ');
    // A quick prime tells little of the limit: the page says which start would.
    expect(await page.getByText('Two starts with the suction shut').count()).toBe(1);
    await expectSound(watched, `dry-start-lift-${width}`);
  });

  it('that did not prime says what suction it came to, and what the sign was', async () => {
    const watched = await openRun('not-primed', 1280);
    expect(await watched.page.getByTestId('priming').textContent()).toMatch(
      /^Not proven: Oil has not arrived after 20 s/,
    );
    const diagnosis = await watched.page.getByTestId('diagnosis').textContent();
    expect(diagnosis).toMatch(/The suction came to [\d.]+ ± [\d.]+ kPa in [\d.]+ s, and carries [\d.]+ ± [\d.]+ m/);
    // No hold of the pipe was made: neither pump nor pipe is convicted.
    expect(diagnosis).toContain('The cause cannot be told.');
    await expectSound(watched, 'dry-start-not-primed-1280');
  });

  it('that was blanked has a limit at each of its speeds, and no lift proven', async () => {
    const watched = await openRun('blanked', 1280);
    expect(await watched.page.getByTestId('priming').textContent()).toContain('no lift is proven');
    const estimate = await watched.page.getByTestId('dry-estimate').textContent();
    expect(estimate?.match(/Estimated: dry lift limit/g)).toHaveLength(2);
    await expectSound(watched, 'dry-start-blanked-1280');
  });
});
