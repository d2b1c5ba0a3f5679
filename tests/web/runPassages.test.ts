import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { recordPractice, type TimedCommand } from '../support/practiceRun.ts';
import { recordedRun, renamed } from '../support/recordedRun.ts';
import { sampleStrip } from '../support/samples.ts';
import { servePage } from './servedPage.ts';
import { expectSound } from './watchedPage.ts';

/** The suction throttled in steps at 1125 r/min. */
function suctionScript(): readonly TimedCommand[] {
  const openings = [1, 0.5, 0.35, 0.25, 0.2, 0.16, 0.13, 0.11];
  return [
    ...['flood', 'valve 1', 'speed 1125'].map((command) => ({ atS: 0, command })),
    ...openings.map((opening, step) => ({ atS: 1 + 15 * step, command: `suction ${opening}` })),
    { atS: 15 * openings.length, command: 'speed 0' },
  ];
}

/** Pressure raised from 0.5 to 6 bar in half a minute, and let down again. */
function reliefScript(): readonly TimedCommand[] {
  const bar = (second: number): number => 0.5 + (5.5 * (30 - Math.abs(second - 30))) / 30;
  return [
    ...['flood', 'valve 1', 'speed 900'].map((command) => ({ atS: 0, command })),
    ...Array.from({ length: 61 }, (_, second) => ({ atS: 5 + second, command: `pressure ${bar(second).toFixed(2)}` })),
    { atS: 70, command: 'speed 0' },
  ];
}

const served = servePage(() => {
  const delivery = recordedRun('delivery', 'healthy');
  const stripped = { ...delivery, run: { ...delivery.run, stripSheet: sampleStrip('dredger-feed-pump') } };
  const relief = recordPractice('relief', 'healthy', 7, {
    script: reliefScript(),
    plant: { relief: { crackingPa: 4e5, fullFlowOvershootPa: 0.8e5, reseatPa: 3.4e5 } },
  });
  return [
    renamed(stripped, { id: 'delivery-strip' }),
    renamed(delivery, { id: 'delivery-changed' }),
    renamed(recordPractice('suction', 'healthy', 7, { script: suctionScript() }), { id: 'suction-run' }),
    renamed(relief, { id: 'relief-run' }),
  ];
});

/** The number before the ±, of a text like '91.96 ± 0.14 %'. */
function valueIn(text: string | null): number {
  const [, number = 'none'] = /(−?[\d.]+) ±/.exec(text ?? '') ?? [];
  return Number(number.replace('−', '-'));
}

async function drawMap(page: Page, celsius: string): Promise<number> {
  await page.getByTestId('map-form').getByLabel('oil at the inlet').fill(celsius);
  await page.getByRole('button', { name: 'Draw the map' }).click();
  await page.getByTestId('map-oil').getByText(`at ${celsius}.0 °C`).waitFor();
  return valueIn(await page.getByTestId('map-reading').textContent());
}

describe('a hold, taken out of the fit by hand', () => {
  it('needs a reason, changes the law, stays out with its reason after a reload, and comes back in', async () => {
    const { page, complaints } = await served.openRun('delivery-changed');
    const law = page.getByTestId('law');
    const coefficients = page.getByTestId('law-table');
    expect(await law.textContent()).toContain('from 14 holds');
    const before = await coefficients.textContent();

    await page.getByRole('button', { name: 'take out hold 5' }).press('Enter');
    const form = page.getByTestId('exclude-hold');
    await form.getByRole('button').click();
    expect(await page.getByTestId('exclusions').count()).toBe(0); // no reason yet: the browser asks for it
    await form.getByLabel('why hold 5 is taken out').fill('valve touched while it stood');
    await form.getByLabel('by').fill('A. Fitter');
    await form.getByRole('button').click();
    await law.getByText('from 13 holds').waitFor();
    expect(await coefficients.textContent()).not.toBe(before);
    const changed = page.getByTestId('changed-numbers').locator('tbody tr');
    const cells = await changed.filter({ hasText: 'slip at the duty' }).locator('td').allTextContents();
    expect(valueIn(cells[1] ?? '') - valueIn(cells[0] ?? '')).toBeCloseTo(Number(cells[2]?.replace('−', '-')), 2);
    expect(await changed.count()).toBe(4);

    await page.reload();
    await page.getByTestId('exclusions').waitFor();
    expect(await law.textContent()).toContain('from 13 holds');
    expect(await page.getByTestId('exclusions').textContent()).toContain(
      'A. Fitter: hold 5 out: valve touched while it stood',
    );
    const struck = page.getByTestId('hold-table').locator('tr.left-out');
    expect(await struck.count()).toBe(1);
    expect(await page.getByTestId('hold-table').textContent()).toContain(
      'Left out of the fit: valve touched while it stood.',
    );

    await page.getByRole('button', { name: 'put back hold 5' }).click();
    await page.getByLabel('why hold 5 goes back in').fill('it was hold 6');
    await page.getByTestId('exclude-hold').getByRole('button').click();
    await law.getByText('from 14 holds').waitFor();
    expect(await coefficients.textContent()).toBe(before);
    expect(await page.getByTestId('exclusions').locator('li').count()).toBe(2);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

describe('the efficiency map', () => {
  it('is drawn anew at another temperature: hotter oil is thinner and more of it slips back', async () => {
    const { page, complaints } = await served.openRun('delivery-strip');
    const at45 = valueIn(await page.getByTestId('map-reading').textContent());
    const at60 = await drawMap(page, '60');
    expect(await page.getByTestId('map-oil').textContent()).toContain(
      'All of this map lies outside what was measured, in oil temperature and viscosity.',
    );
    const at40 = await drawMap(page, '40');
    expect(at60).toBeLessThan(at45);
    expect(at40).toBeGreaterThan(at45);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('is drawn for an oil grade, and says why there is none where the oil has no viscosity', async () => {
    const { page } = await served.openRun('delivery-strip');
    const form = page.getByTestId('map-form');
    await form.getByRole('combobox').selectOption('ISO VG 46');
    await form.getByLabel('its viscosity index').fill('100');
    await drawMap(page, '45');
    expect(await page.getByTestId('map-oil').textContent()).toContain('ISO VG 46, viscosity index 100 at 45.0 °C');
    await form.getByLabel('oil at the inlet').fill('400');
    await page.getByRole('button', { name: 'Draw the map' }).click();
    await page.getByText('No map: this oil cannot be computed at 400.0 °C').waitFor();
    await page.context().close();
  });

  it('is read by keyboard: faster turning loses a smaller share', async () => {
    const { page } = await served.openRun('delivery-strip');
    const reading = page.getByTestId('map-reading');
    const before = await reading.textContent();
    await page.getByLabel('speed', { exact: true }).press('ArrowLeft');
    const slower = await reading.textContent();
    expect(valueIn(slower)).toBeLessThan(valueIn(before));
    await page.getByLabel('speed', { exact: true }).press('Home');
    expect(await reading.textContent()).toContain('outside what was measured');
    await page.context().close();
  });
});

describe('the passages of a run', () => {
  it('open a number to its budget, largest share first', async () => {
    const { page } = await served.openRun('delivery-strip');
    const capacity = page.getByTestId('headline-numbers').locator('details').first();
    expect(await capacity.getByTestId('budget').isVisible()).toBe(false);
    await capacity.locator('summary').press('Enter');
    const shares = await capacity.getByTestId('budget').locator('.number').allTextContents();
    const percent = shares.map((share) => Number(share.replace(/[^\d.]/g, '')));
    expect(percent.length).toBeGreaterThan(2);
    expect(percent).toEqual([...percent].sort((a, b) => b - a));
    await page.context().close();
  });

  it('show where the predicted slip goes, hold by hold, adding up to the prediction beside it', async () => {
    const { page, complaints } = await served.openRun('delivery-strip');
    const gaps = page.locator('figure', { hasText: 'Slip by the gaps it goes through' });
    await gaps.getByRole('button', { name: 'numbers' }).click();
    const heads = await gaps.locator('thead th').allTextContents();
    const cells = (await gaps.locator('tbody tr').nth(3).locator('td').allTextContents()).map(Number);
    const parts = cells.filter((_, index) => heads[index]?.endsWith('slip [l/min]') && index > 0);
    const whole = page.locator('figure', { hasText: 'Slip, hold by hold' });
    await whole.getByRole('button', { name: 'numbers' }).click();
    const predicted = whole.locator('tbody tr', { hasText: 'predicted' }).nth(3).locator('td').nth(3);
    expect(parts.length).toBeGreaterThan(1);
    expect(parts.reduce((sum, part) => sum + part, 0)).toBeCloseTo(Number(await predicted.textContent()), 4);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('are sound on a telephone with everything opened', async () => {
    const watched = await served.openRun('delivery-strip', 390);
    const { page } = watched;
    for (const summary of await page.locator('summary').all()) await summary.press('Enter');
    await page.getByRole('button', { name: 'take out hold 4' }).click();
    for (const testId of ['outlook', 'law-table', 'two-step', 'next-hold', 'equivalent-clearances']) {
      expect(await page.getByTestId(testId).first().isVisible(), testId).toBe(true);
    }
    expect(await page.getByTestId('checks').locator('dt').count()).toBe(5);
    await expectSound(watched, 'run-passages-390-light');
  });

  it('show a suction run', async () => {
    const watched = await served.openRun('suction-run', 1280);
    expect(await watched.page.getByTestId('suction').textContent()).toMatch(/1 % of the flow is (not )?lost/);
    await expectSound(watched, 'suction-run-1280-light');
  });

  it('show a relief run with its strokes', async () => {
    const watched = await served.openRun('relief-run', 390);
    expect(await watched.page.getByTestId('relief').textContent()).toContain('bar');
    await watched.page.getByText('Flow against pressure, up and down').waitFor();
    await expectSound(watched, 'relief-run-390-light');
  });
});
