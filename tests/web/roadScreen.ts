import type { BrowserContextOptions } from 'playwright-core';

/** On which screen the roads are walked: SLIPWRIGHT_SCREEN is a width in pixels and light or dark, such as 360-dark; `npm run roads` walks them on all. */
const SCREEN = process.env.SLIPWRIGHT_SCREEN ?? '1440-light';

/** @throws RangeError naming what SLIPWRIGHT_SCREEN says instead of a screen */
export function roadScreen(): BrowserContextOptions {
  const found = /^(\d{3,4})-(light|dark)$/.exec(SCREEN);
  if (found === null)
    throw new RangeError(`SLIPWRIGHT_SCREEN: ${SCREEN}, expected a width and light or dark: 360-dark`);
  return { viewport: { width: Number(found[1]), height: 900 }, colorScheme: found[2] === 'dark' ? 'dark' : 'light' };
}
