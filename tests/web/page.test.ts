import { describe, expect, it } from 'vitest';
import { liveReadingsOf, recordedRun } from '../support/recordedRun.ts';
import { OPEN_RUN } from '../support/rememberingSession.ts';
import { servePage } from './servedPage.ts';
import { expectSound, type Watched } from './watchedPage.ts';

const delivery = recordedRun('delivery', 'healthy');
const dryLift = recordedRun('dryLift', 'healthy');
const unprimable = recordedRun('dryLift', 'unprimable');
const RUNS = [delivery, dryLift, { ...unprimable, run: { ...unprimable.run, id: 'practice-drylift-stalled' } }];

const served = servePage(() => RUNS);

const open = (width: number, colorScheme: 'light' | 'dark', place: string): Promise<Watched> =>
  served.open(place, width, colorScheme);

/** Waits until the page listens, then lets two minutes of a recorded run arrive. */
async function bringReadings({ page }: Watched): Promise<void> {
  await page.getByTestId('connection').waitFor();
  const readings = liveReadingsOf(delivery);
  served.dependencies().session.pushReadings(readings.slice(-6_000));
  await page.getByTestId('reading-flow').waitFor();
}

const SCREENS = [
  { width: 1440, colorScheme: 'light' },
  { width: 1440, colorScheme: 'dark' },
  { width: 360, colorScheme: 'light' },
  { width: 768, colorScheme: 'dark' },
  { width: 2560, colorScheme: 'light' },
] as const;

for (const { width, colorScheme } of SCREENS) {
  describe(`the page at ${width} px, ${colorScheme}`, () => {
    const name = (place: string): string => `${place}-${width}-${colorScheme}`;

    it('shows a bench at rest with its readings and the start form', async () => {
      served.dependencies().session.setState({ openRun: null, badLineCounts: {} });
      const watched = await open(width, colorScheme, '');
      await bringReadings(watched);
      await watched.page.getByTestId('start-form').waitFor();
      await expectSound(watched, name('bench-at-rest'));
    });

    it('shows a run being recorded: guide, points taken, large readings, health of the line', async () => {
      served.dependencies().session.setState({ openRun: OPEN_RUN, badLineCounts: { checksum: 2, torn: 1 } });
      const watched = await open(width, colorScheme, '#/bench');
      await bringReadings(watched);
      const { page } = watched;
      expect(await page.getByTestId('points-taken').textContent()).toBe('5 of 12 points taken');
      expect(await page.getByTestId('run-clock').textContent()).toBe('00:03:12'); // 192 s
      expect(await page.getByTestId('line-health').textContent()).toContain('2 with a wrong checksum, 1 torn');
      expect(await page.getByTestId('reading-oilTemperature').textContent()).toContain('rising');
      await expectSound(watched, name('bench-recording'));
    });

    it('shows a delivery run from its verdict down', async () => {
      const watched = await open(width, colorScheme, `#/runs/${delivery.run.id}`);
      const { page } = watched;
      await page.getByTestId('record').waitFor();
      expect(await page.getByTestId('verdict').textContent()).toMatch(/^(Pass|Fail|Not proven)/);
      await page.getByTestId('hold-table').waitFor();
      await expectSound(watched, name('delivery-run'));
    });

    it('shows a dry-lift run with its sentence and the way up', async () => {
      const watched = await open(width, colorScheme, `#/runs/${dryLift.run.id}`);
      await watched.page.getByTestId('record').waitFor();
      expect(await watched.page.getByTestId('priming').textContent()).toContain('after the motor started');
      await expectSound(watched, name('dry-lift-run'));
    });

    it('shows a dry-lift run whose oil never came', async () => {
      const watched = await open(width, colorScheme, '#/runs/practice-drylift-stalled');
      await watched.page.getByTestId('record').waitFor();
      expect(await watched.page.getByTestId('priming').textContent()).toContain('Oil has not arrived');
      await expectSound(watched, name('dry-lift-stalled'));
    });

    it('shows runs, pumps, a pump, its forms, certificates and instruments', async () => {
      for (const [place, testId] of [
        ['runs', 'run-table'],
        ['pumps', 'pump-table'],
        ['pumps/dredger-feed-pump', 'what-if'],
        ['pumps/dredger-feed-pump/strip', 'strip-sums'],
        ['pumps/dredger-feed-pump/record', 'pump-form'],
        ['certificates', 'verify'],
        ['instruments', 'instrument-table'],
        ['instruments/flow', 'calibration-form'],
      ] as const) {
        const watched = await open(width, colorScheme, `#/${place}`);
        await watched.page.getByTestId(testId).waitFor();
        await expectSound(watched, name(place.replaceAll('/', '-')));
      }
    });
  });
}

describe('the page, worked by hand', () => {
  it('starts a run once the cautions are confirmed, marks it, and stops it', async () => {
    const { session } = served.dependencies();
    session.setState({ openRun: null });
    const { page, complaints } = await open(1440, 'light', '#/bench');
    await page.getByLabel('kind of run').selectOption('dryLift');
    const startButton = page.getByRole('button', { name: 'Start recording' });
    await startButton.click();
    expect(session.told.some((line) => line.startsWith('start'))).toBe(false);
    const zero = page.getByTestId('zero-check');
    await zero.locator('summary').click();
    await zero.getByRole('button', { name: 'Take zero check' }).click();
    await zero.getByRole('checkbox').first().check();
    // 1013.25 mbar and 875 kg/m³ stand in the form
    expect(session.told.at(-1)).toBe('zero {"barometerPa":101325,"oilDensityKgPerM3":875}');
    await page.getByLabel('All of this is so.').check();
    await startButton.click();
    await page.getByTestId('run-bar').waitFor();
    const started = session.told.find((line) => line.startsWith('start')) ?? '';
    // 0.025 m bore and 101 325 Pa come back as they went out, through mm and mbar
    expect(JSON.parse(started.replace('start ', ''))).toMatchObject({
      kind: 'dryLift',
      pumpId: 'dredger-feed-pump',
      label: 'as rebuilt',
      operator: 'A. Fitter',
      setUp: { suctionPipeBoreM: 0.025, wetness: 'W1', barometerPa: { value: 101_325, standardUncertainty: 50 } },
      oil: { lower: { temperatureK: 313.15 } },
    });
    expect(JSON.parse(started.replace('start ', ''))).toMatchObject({
      zeroCheck: {
        channels: [
          { channel: 'flow', offset: 0.012, isApplied: true },
          { channel: 'deliveryPressure', isApplied: false },
        ],
      },
    });
    await page.getByLabel('what happened').fill('valve opened');
    await page.getByRole('button', { name: 'Mark', exact: true }).click();
    await expect.poll(() => session.told.at(-1)).toBe('mark valve opened');
    await page.getByRole('button', { name: 'Stop recording' }).click();
    await page.getByTestId('verdict').waitFor();
    expect(page.url()).toContain(`#/runs/${dryLift.run.id}`);
    await page.goBack();
    await page.getByTestId('start-form').waitFor();
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('sets the practice bench', async () => {
    const { session } = served.dependencies();
    const { page } = await open(1440, 'light', '#/bench');
    await page.getByTestId('practice-pressure').fill('3.5');
    await page.getByRole('button', { name: 'Set delivery pressure' }).click();
    await expect.poll(() => session.told.at(-1)).toBe('practice pressure 3.5');
    await page.getByRole('button', { name: 'Drain it dry' }).click();
    await expect.poll(() => session.told.at(-1)).toBe('practice dry');
    await page.context().close();
  });

  it('files a certificate from two runs and lists it', async () => {
    const watched = await open(1440, 'light', `#/runs/${delivery.run.id}`);
    const { page } = watched;
    await page.getByTestId('file-certificate').getByRole('checkbox').first().check();
    await page.getByLabel('signed by').fill('A. Fitter');
    await page.getByRole('button', { name: 'File certificate' }).click();
    expect(await page.getByTestId('filed').textContent()).toContain('SPECIMEN');
    expect(await page.getByRole('link', { name: /Open the PDF/ }).getAttribute('href')).toMatch(
      /^\/api\/certificates\/.+\.pdf$/,
    );
    await page.getByRole('link', { name: 'Certificates' }).click();
    await page.getByTestId('certificate-table').waitFor();
    await expectSound(watched, 'certificates-1440-light');
  });

  it('goes from place to place by keyboard alone', async () => {
    const { page } = await open(1440, 'light', '#/bench');
    await page.getByTestId('start-form').waitFor();
    await page.keyboard.press('Tab'); // to the page
    await page.keyboard.press('Tab'); // Bench
    await page.keyboard.press('Tab'); // Pumps
    await page.keyboard.press('Enter');
    await page.getByTestId('pump-table').waitFor();
    expect(await page.title()).toBe('Pumps · Slipwright');
    await page.context().close();
  });

  it('says in words why there is nothing at an address', async () => {
    const { page } = await open(1440, 'light', '#/runs/never-recorded');
    await page.getByText('No run is called never-recorded.').waitFor();
    await page.context().close();
  });
});
