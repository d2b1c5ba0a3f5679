import { describe, expect, it } from 'vitest';
import { twoBlankedSpeeds } from '../support/dryStartScripts.ts';
import { dryStartScript, recordPractice } from '../support/practiceRun.ts';
import { recordedRun, renamed } from '../support/recordedRun.ts';
import { servePage } from './servedPage.ts';
import { expectSound } from './watchedPage.ts';

const served = servePage(() => [
  renamed(recordedRun('dryLift', 'healthy'), { id: 'lift' }),
  renamed(recordPractice('dryLift', 'unprimable', 8, { script: dryStartScript(600, 20) }), { id: 'not-primed' }),
  renamed(recordPractice('blanked', 'healthy', 7, { script: twoBlankedSpeeds() }), { id: 'blanked' }),
]);

describe('a dry start on the page', () => {
  it.each([1280, 390])('stands proven and estimated apart, and says what was not told, %d px wide', async (width) => {
    const watched = await served.openRun('lift', width);
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
    const watched = await served.openRun('not-primed', 1280);
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
    const watched = await served.openRun('blanked', 1280);
    expect(await watched.page.getByTestId('priming').textContent()).toContain('no lift is proven');
    const estimate = await watched.page.getByTestId('dry-estimate').textContent();
    expect(estimate?.match(/Estimated: dry lift limit/g)).toHaveLength(2);
    await expectSound(watched, 'dry-start-blanked-1280');
  });
});
