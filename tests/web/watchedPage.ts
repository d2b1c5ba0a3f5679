import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { expect } from 'vitest';

const OUTPUT = new URL('../output/', import.meta.url).pathname;

/** A page with what the browser complained of, and every address it asked for outside its server. */
export type Watched = { readonly page: Page; readonly complaints: string[] };

/** Opens an address in a browser of its own size and colours. */
export async function openPage(
  browser: Browser,
  address: string,
  width: number,
  colorScheme: 'light' | 'dark' = 'light',
): Promise<Watched> {
  const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('request', (request) => {
    if (!request.url().startsWith(new URL(address).origin)) complaints.push(`asked elsewhere: ${request.url()}`);
  });
  await page.goto(address);
  return { page, complaints };
}

/** Keeps a picture, and expects no breach of accessibility, no sideways scrolling, no complaint; then closes the page. */
export async function expectSound({ page, complaints }: Watched, name: string): Promise<void> {
  mkdirSync(OUTPUT, { recursive: true });
  await page.screenshot({ path: join(OUTPUT, `${name}.png`), fullPage: true });
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([]);
  const overhang = await page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth');
  expect(overhang, 'the page scrolls sideways').toBeLessThanOrEqual(0);
  expect(complaints).toEqual([]);
  await page.context().close();
}
