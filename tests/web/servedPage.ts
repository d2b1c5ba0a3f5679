import type { Server } from 'node:http';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { createApp } from '../../web/server/createApp.ts';
import { addressOf, closeServer, listen } from '../../web/server/listen.ts';
import { launchBrowser } from '../support/browser.ts';
import { buildPage } from '../support/builtPage.ts';
import type { PracticeRun } from '../support/practiceRun.ts';
import { type TestDependencies, testDependencies } from '../support/webDependencies.ts';
import { openPage, type Watched } from './watchedPage.ts';

/** The page with an archive in memory behind it, and a browser, for all tests of a file. */
export type ServedPage = {
  readonly dependencies: () => TestDependencies;
  /** Opens a place, such as '#/runs'. */
  readonly open: (place: string, width: number, colorScheme?: 'light' | 'dark') => Promise<Watched>;
  /** Opens a run and waits for its record. */
  readonly openRun: (id: string, width?: number) => Promise<Watched>;
};

/** Serves the page from before the first test of the file that calls this until after the last. */
export function servePage(runs: () => readonly PracticeRun[]): ServedPage {
  let browser: Browser | undefined;
  let server: Server | undefined;
  let dependencies: TestDependencies | undefined;
  beforeAll(async () => {
    dependencies = testDependencies(runs(), await buildPage());
    server = await listen(createApp(dependencies), 0);
    browser = await launchBrowser();
  });
  afterAll(async () => {
    await browser?.close();
    if (server !== undefined) await closeServer(server);
  });

  const open: ServedPage['open'] = (place, width, colorScheme) => {
    if (browser === undefined || server === undefined) throw new Error('nothing is served yet');
    return openPage(browser, `${addressOf(server)}/${place}`, width, colorScheme);
  };
  return {
    open,
    openRun: async (id, width = 1280) => {
      const watched = await open(`#/runs/${id}`, width);
      await watched.page.getByTestId('record').waitFor();
      return watched;
    },
    dependencies: () => {
      if (dependencies === undefined) throw new Error('nothing is served yet');
      return dependencies;
    },
  };
}
