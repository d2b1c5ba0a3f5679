import { existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { verifyCertificate } from '../../rig/certificate/verifyCertificate.ts';
import { type RunningServer, startServer } from '../../web/server/startServer.ts';
import { launchBrowser } from '../support/browser.ts';
import { buildPage } from '../support/builtPage.ts';
import { roadScreen } from './roadScreen.ts';

const OUTPUT = new URL('../output/', import.meta.url).pathname;
const SEED = Number(process.env.SLIPWRIGHT_SEED ?? 62);

let folder: string;
let server: RunningServer;
let browser: Browser;
let page: Page;
const complaints: string[] = [];

beforeAll(async () => {
  mkdirSync(OUTPUT, { recursive: true });
  folder = mkdtempSync(join(tmpdir(), 'slipwright-web-road-'));
  process.env.SLIPWRIGHT_KEYS = join(folder, 'keys');
  const options = { archive: join(folder, 'archive'), port: 0, scenario: 'healthy', seed: SEED, speedUp: 20 } as const;
  server = await startServer(options, await buildPage());
  browser = await launchBrowser();
  page = await (await browser.newContext(roadScreen())).newPage();
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(String(error)));
});

afterAll(async () => {
  await browser?.close();
  await server?.close();
  rmSync(folder, { recursive: true, force: true });
});

async function picture(name: string): Promise<void> {
  await page.screenshot({ path: join(OUTPUT, `road-${name}.png`), fullPage: true });
}

/** Takes the zeros of the bench at rest, to go with the next run; one of them is taken off. */
async function takeZeroCheck(): Promise<void> {
  await page.getByRole('link', { name: 'Bench' }).click();
  const zero = page.getByTestId('zero-check');
  await zero.locator('summary').click();
  await zero.getByRole('button', { name: 'Take zero check' }).click();
  await zero.getByRole('checkbox', { name: /flow/ }).check();
}

/** Starts a run by the form and waits for the page that the finished run has. */
async function runByClicking(kind: 'delivery' | 'dryLift'): Promise<void> {
  await page.getByRole('link', { name: 'Bench' }).click();
  const form = page.getByTestId('start-form');
  await form.waitFor();
  await form.getByLabel('kind of run').selectOption(kind);
  await form.getByLabel('operator').fill('A. Fitter (invented)');
  const cautions = form.getByRole('checkbox', { name: 'All of this is so.' });
  if (!(await cautions.isChecked())) await cautions.check();
  await form.getByRole('button', { name: 'Start recording' }).click();
  await page.getByTestId('run-clock').waitFor();
  await page.getByTestId('reading-flow').waitFor();
  await picture(`${kind}-recording`);
  await page.getByTestId('verdict').waitFor({ timeout: 60_000 });
  await page.getByTestId('record').waitFor();
}

describe(`the whole road by clicking, in a real browser (seed ${SEED})`, () => {
  it('records a dry start and a delivery run, and files a certificate that verifies', async () => {
    await page.goto(server.address);
    await runByClicking('dryLift');
    expect(await page.getByTestId('verdict').textContent()).toMatch(/^Pass/);
    await picture('dryLift-run');

    await takeZeroCheck();
    await runByClicking('delivery');
    expect(await page.getByTestId('verdict').textContent()).toMatch(/^Pass/);
    expect(await page.getByTestId('hold-table').locator('tbody tr').count()).toBeGreaterThanOrEqual(12);
    await picture('delivery-run');

    const filing = page.getByTestId('file-certificate');
    await filing.getByRole('checkbox').first().check();
    await filing.getByLabel(/sign/i).fill('A. Fitter (invented)');
    await filing.getByRole('button', { name: /file/i }).click();
    await page.getByTestId('filed').waitFor();
    await page.getByRole('link', { name: 'Certificates' }).click();
    await page.getByText(`${new Date().getUTCFullYear()}-0001`).first().waitFor();
    await picture('certificates');

    const pdf = join(folder, 'archive/certificates', `${new Date().getUTCFullYear()}-0001.pdf`);
    expect(existsSync(pdf)).toBe(true);
    expect(verifyCertificate(pdf)).toMatchObject({ state: 'whole', outcome: 'pass', isSpecimen: true });
    const served = await page.request.get(`${server.address}/api/certificates/${new Date().getUTCFullYear()}-0001.pdf`);
    expect(served.status()).toBe(200);
    expect((await served.body()).subarray(0, 5).toString('latin1')).toBe('%PDF-');

    await page.goBack();
    await page.getByRole('button', { name: 'take out hold 2' }).click();
    await page.getByLabel('why hold 2 is taken out').fill('valve touched (invented)');
    await page.getByTestId('exclude-hold').getByRole('button').click();
    await page.getByTestId('exclusions').waitFor();
    await page.reload();
    expect(await page.getByTestId('exclusions').textContent()).toContain('valve touched (invented)');
    expect(complaints).toEqual([]);
  }, 150_000);

  it('puts another certificate in its place and withdraws that one; both ask for the reason first', async () => {
    const year = new Date().getUTCFullYear();
    const [first, second] = [`${year}-0001`, `${year}-0002`];
    await page.goto(`${server.address}/#/certificates/${first}`);
    await page.getByText('Another certificate is to take its place').click();
    const replace = page.getByTestId('replace');
    const sendReplacement = replace.getByRole('button', { name: `File a certificate in place of ${first}` });
    await sendReplacement.click();
    await replace.getByText('it is printed on the new certificate').waitFor();
    await picture('certificate-replace');
    await replace.getByLabel('why it is replaced').fill('one hold was taken out (invented)');
    await sendReplacement.click();
    await page.getByRole('heading', { name: second }).waitFor();
    const certificates = join(folder, 'archive/certificates');
    expect(verifyCertificate(join(certificates, `${first}.pdf`))).toMatchObject({
      standing: { state: 'replaced' },
    });

    await page.getByText('This certificate must not be relied on any more').click();
    const withdraw = page.getByTestId('withdraw');
    await withdraw.getByLabel('why it is withdrawn').fill('the wrong pump was on the bench (invented)');
    const sendWithdrawal = withdraw.getByRole('button', { name: `Withdraw ${second}` });
    await sendWithdrawal.click();
    await withdraw.getByText('tick that it is meant').waitFor();
    expect(existsSync(join(certificates, `${second}.withdrawn.json`))).toBe(false);
    await withdraw.getByRole('checkbox').check();
    await sendWithdrawal.click();
    await page.getByText('the wrong pump was on the bench (invented)').first().waitFor();
    await picture('certificate-withdrawn');
    expect(verifyCertificate(join(certificates, `${second}.pdf`))).toMatchObject({
      standing: { state: 'withdrawn' },
    });
    expect(complaints).toEqual([]);
  }, 60_000);
});
