import { readFileSync } from 'node:fs';
import type { Download, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { recordedRun } from '../support/recordedRun.ts';
import { servePage } from './servedPage.ts';

/** A flow of 60 l/min for one reading in the middle of the run. */
const SPIKE_M3_PER_S = 1e-3;

const delivery = recordedRun('delivery', 'healthy');
const PLACE = `#/runs/${delivery.run.id}`;
const served = servePage(() => {
  const flow = delivery.decoded.readings.channels.flow?.values;
  flow?.set([SPIKE_M3_PER_S], flow.length >> 1);
  return [delivery];
});

/** The stretch in the address [s]; null: the whole run. */
function stretchIn(page: Page): readonly [number, number] | null {
  const query = new URLSearchParams(page.url().split('?')[1] ?? '');
  return query.size === 0 ? null : [Number(query.get('from')), Number(query.get('to'))];
}

/** A place across the drawing, as a share of it. */
async function placeAt(page: Page, share: number): Promise<readonly [number, number]> {
  const drawing = page.locator('.time-bands');
  await drawing.scrollIntoViewIfNeeded();
  const box = await drawing.boundingBox();
  if (box === null) throw new Error('the record is not drawn');
  return [box.x + 56 + share * (box.width - 80), box.y + 120];
}

async function drag(page: Page, from: number, to: number): Promise<void> {
  await page.mouse.move(...(await placeAt(page, from)));
  await page.mouse.down();
  await page.mouse.move(...(await placeAt(page, (from + to) / 2)));
  await page.mouse.move(...(await placeAt(page, to)));
  await page.mouse.up();
}

async function savedBy(page: Page, button: string): Promise<string> {
  const downloads: Promise<Download> = page.waitForEvent('download');
  await page.getByTestId('record').getByRole('button', { name: button }).click();
  return readFileSync(await (await downloads).path(), 'utf8');
}

describe('the record of a run', () => {
  it('is looked at closely by the mouse; the address keeps the stretch, Back leaves it', async () => {
    const { page, complaints } = await served.open(PLACE, 1280);
    await page.getByTestId('record-stretch').getByText('readings').waitFor();
    await drag(page, 0.25, 0.5);
    await expect.poll(() => stretchIn(page)).not.toBeNull();
    const [from, to] = stretchIn(page) ?? [0, 0];
    const lastS = Number(/of (\d+) s/.exec((await page.getByTestId('record-stretch').textContent()) ?? '')?.[1]);
    expect(from / lastS).toBeCloseTo(0.25, 1);
    expect(to / lastS).toBeCloseTo(0.5, 1);
    await drag(page, 0.4, 0.45);
    await page.getByText('each one drawn').waitFor();
    await page.goBack();
    await expect.poll(() => stretchIn(page)).toEqual([from, to]);
    await page.goBack();
    await expect.poll(() => stretchIn(page)).toBeNull();
    await page.getByTestId('record-stretch').getByText(`0 s to ${lastS} s`).waitFor();
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('is moved by keys alone, and the stretch of an address is shown at once', async () => {
    const { page } = await served.open(`${PLACE}?from=40.00&to=60.00`, 1280);
    await page.getByTestId('record-stretch').getByText('40.0 s to 60.0 s').waitFor();
    await page.getByRole('button', { name: 'closer' }).focus();
    await page.keyboard.press('+');
    await expect.poll(() => stretchIn(page)).toEqual([45, 55]);
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => stretchIn(page)).toEqual([47.5, 57.5]);
    await page.keyboard.press('-');
    await expect.poll(() => stretchIn(page)).toEqual([42.5, 62.5]);
    await page.keyboard.press('0');
    await expect.poll(() => stretchIn(page)).toBeNull();
    expect(await page.getByRole('button', { name: 'wider' }).isDisabled()).toBe(true);
    await page.context().close();
  });

  it('is spread by two fingers and by Ctrl with the wheel, about the moment under them', async () => {
    const { page } = await served.open(`${PLACE}?from=40.00&to=60.00`, 1280);
    await page.getByTestId('record-stretch').getByText('40.0 s to 60.0 s').waitFor();
    const touch = await page.context().newCDPSession(page);
    const fingers = async (type: 'touchStart' | 'touchMove' | 'touchEnd', shares: readonly number[]) => {
      const touchPoints = [];
      for (const [id, share] of shares.entries()) {
        const [x, y] = await placeAt(page, share);
        touchPoints.push({ x, y, id });
      }
      await touch.send('Input.dispatchTouchEvent', { type, touchPoints });
    };
    await fingers('touchStart', [0.4, 0.6]);
    for (const apart of [0.15, 0.2, 0.25]) await fingers('touchMove', [0.5 - apart, 0.5 + apart]);
    await fingers('touchEnd', []);
    // 0.2 of 20 s, spread to half of the drawing: 8 s about the middle
    await expect.poll(() => stretchIn(page)?.map(Math.round)).toEqual([46, 54]);
    await page.mouse.move(...(await placeAt(page, 0.5)));
    await page.keyboard.down('Control');
    await page.mouse.wheel(0, 1_000);
    await page.keyboard.up('Control');
    await expect.poll(() => (stretchIn(page)?.[0] ?? 99) < 40).toBe(true);
    await page.context().close();
  });

  it('shows a spike of one reading in the whole run, and gives what is drawn as CSV and as a picture', async () => {
    const watched = await served.open(PLACE, 1280);
    const { page } = watched;
    await page.getByTestId('record-stretch').getByText('readings').waitFor();
    const csv = await savedBy(page, 'CSV');
    expect(csv.split('\r\n')[0]).toBe('channel,time [s],value');
    expect(csv).toMatch(/flow \[l\/min\],[\d.]+,60\r\n/); // 1e-3 m³/s
    const picture = await savedBy(page, 'picture');
    expect(picture).toContain('<svg');
    expect(picture).toContain('speed [r/min]');
    expect(picture).not.toContain('var(');
    await page.getByTestId('record').getByRole('button', { name: 'numbers' }).click();
    await page.getByText(/The first 200 of/).waitFor();
    expect(watched.complaints).toEqual([]);
    await page.context().close();
  });
});
