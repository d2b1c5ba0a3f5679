import { describe, expect, it } from 'vitest';
import { recordedRun, renamed } from '../support/recordedRun.ts';
import { servePage } from './servedPage.ts';
import { expectSound } from './watchedPage.ts';

const served = servePage(() => {
  const healthy = recordedRun('delivery', 'healthy');
  return [
    renamed(recordedRun('delivery', 'worn'), { id: 'before', label: 'as found' }),
    renamed(healthy, { id: 'after' }),
    renamed(healthy, { id: 'sister', pump: { ...healthy.run.pump, id: 'sister-pump', serialNumber: 'KB-205' } }),
    renamed(recordedRun('dryLift', 'healthy'), { id: 'dry' }),
  ];
});

describe('runs beside each other', () => {
  it('are chosen at a run and kept in the address; a worn pump before and after differs', async () => {
    const watched = await served.open('#/runs/before', 1440);
    const { page } = watched;
    await page.getByLabel('compare with').selectOption('after');
    await page.getByRole('button', { name: 'Show beside each other' }).click();
    await page.getByTestId('differences').waitFor();
    expect(page.url()).toContain('#/compare/before,after');
    expect(await page.getByTestId('flow-difference').textContent()).toContain('B delivers more than A');
    const slip = page.getByTestId('differences').locator('tr', { hasText: 'slip at the duty' });
    expect(await slip.textContent()).toContain('they differ');
    await page.reload();
    await page.getByTestId('record').locator('.time-bands').waitFor();
    // Two lines in every band of a channel that both benches have
    expect(await page.locator('[data-band="flow"] path[fill="none"]').count()).toBe(2);
    await expectSound(watched, 'compare-1440-light');
  });

  it('say that the same readings mean no difference, for a sister pump too, and let a run be left out', async () => {
    const watched = await served.open('#/compare/after,sister', 360, 'dark');
    const { page } = watched;
    await page.getByTestId('differences').waitFor();
    expect(await page.getByTestId('flow-difference').textContent()).toContain('deliver the same within');
    expect(await page.getByTestId('differences').textContent()).not.toContain('they differ');
    await page.getByTestId('record').waitFor();
    await page.getByRole('link', { name: 'leave out' }).first().click();
    await expect.poll(() => page.url()).toContain('#/runs/sister');
    await page.goBack();
    await page.getByTestId('record').locator('.time-bands').waitFor();
    await expectSound(watched, 'compare-360-dark');
  });

  it('say what cannot be compared', async () => {
    const { page, complaints } = await served.open('#/compare/after,dry', 1440);
    await page.getByText('B has no slip law').waitFor();
    await page.getByTestId('dry-starts').waitFor();
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});
