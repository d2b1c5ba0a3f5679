import { describe, expect, it } from 'vitest';
import type { BenchAction, RunGuide } from '../../../analysis/guide/guideSetting.ts';
import { ReadingWindow } from '../../../analysis/guide/readingWindow.ts';
import { createRunGuide } from '../../../analysis/guide/runGuide.ts';
import { QUALITY } from '../../../analysis/readings.ts';
import type { PumpRecord } from '../../../analysis/records/pumpRecord.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { samplePump } from '../../support/samples.ts';

const BAROMETER_PA = 101_325;
const PUMP = samplePump('dredger-feed-pump');

function guideFor(pump: PumpRecord = PUMP, patienceS: number | null = null): RunGuide {
  return createRunGuide({
    kind: 'blanked',
    pump,
    bench: inventedBench(),
    barometerPa: BAROMETER_PA,
    sweptVolumeM3PerRev: 13.88e-6,
    deliveryLineVolume: { value: 0, standardUncertainty: 0 },
    wetness: 'W1',
    patienceS,
  });
}

/** A motor that obeys at once; the suction tends to its end with a time constant, and back again at rest. */
class BlankedBench {
  readonly told: (readonly [atS: number, speedRevPerS: number])[] = [];
  private readonly window = new ReadingWindow(60);
  private step = 0;
  private speedRevPerS = 0;
  private suctionPa = BAROMETER_PA;

  constructor(
    private readonly guide: RunGuide,
    private readonly drawing: { readonly endPa: number; readonly drawS: number; readonly backS: number },
  ) {
    this.obey(guide.begin());
  }

  private obey(actions: readonly BenchAction[]): void {
    for (const action of actions) {
      if (action.kind !== 'setSpeed') continue;
      this.speedRevPerS = action.speedRevPerS;
      this.told.push([this.step / 20, action.speedRevPerS]);
    }
  }

  runFor(seconds: number): void {
    const { good } = QUALITY;
    for (const end = this.step + 20 * seconds; this.step < end; this.step += 1) {
      const { endPa, drawS, backS } = this.drawing;
      const [towardsPa, inS] = this.speedRevPerS > 0 ? [endPa, drawS] : [BAROMETER_PA, backS];
      this.suctionPa += (towardsPa - this.suctionPa) * (1 - Math.exp(-0.05 / inS));
      this.window.push({
        atS: this.step / 20,
        values: { speed: this.speedRevPerS, suctionPressure: this.suctionPa },
        quality: { speed: good, suctionPressure: good },
      });
      if (this.step % 2 === 0) this.obey(this.guide.look(this.window));
    }
  }
}

describe('the guide of a blanked run', () => {
  it('leads through half the speed and the whole one, with the suction back in between, and ends', () => {
    const guide = guideFor();
    expect(guide.state().sentence).toContain("Shut the suction at the pump's flange");
    const bench = new BlankedBench(guide, { endPa: 50_000, drawS: 0.5, backS: 1 });
    bench.runFor(40);
    // The duty's priming demand allows 600 r/min: 5 and 10 rev/s.
    expect(bench.told.map(([, speed]) => speed)).toEqual([0, 5, 0, 10, 0]);
    expect(guide.state()).toMatchObject({ isFinished: true, stepsDone: 4 });
    // exp(−t/0.5 s) of 51 kPa is 50 Pa after 3.5 s; each start lasts little longer than that and the two seconds it stands.
    const [, firstOn = [0], firstOff = [0]] = bench.told;
    expect(firstOff[0] - firstOn[0]).toBeGreaterThan(3.4);
    expect(firstOff[0] - firstOn[0]).toBeLessThan(7);
  });

  it('stops a pump whose suction never stands once it has turned dry for thirty seconds in all', () => {
    const guide = guideFor();
    const bench = new BlankedBench(guide, { endPa: 0, drawS: 40, backS: 1 });
    bench.runFor(60);
    const [, on = [0], off = [0]] = bench.told;
    expect(off[0] - on[0]).toBeGreaterThan(29.5);
    expect(off[0] - on[0]).toBeLessThan(31);
    expect(guide.state().sentence).toContain('stop the motor now');
  });

  it('does not start again before the suction is back, and gives up where nobody opens the valve', () => {
    const waiting = guideFor();
    const bench = new BlankedBench(waiting, { endPa: 50_000, drawS: 0.5, backS: 1e4 });
    bench.runFor(60);
    expect(bench.told.map(([, speed]) => speed)).toEqual([0, 5, 0]);
    expect(waiting.state().sentence).toContain('open the valve for a moment');
    const impatient = guideFor(PUMP, 10);
    new BlankedBench(impatient, { endPa: 50_000, drawS: 0.5, backS: 1e4 }).runFor(60);
    expect(impatient.state().isFinished).toBe(true);
    expect(impatient.state().sentence).toContain('One speed is recorded');
  });

  it('does not turn a pump that must never run dry', () => {
    const guide = guideFor({ ...PUMP, mayRunDry: false });
    const bench = new BlankedBench(guide, { endPa: 50_000, drawS: 0.5, backS: 1 });
    bench.runFor(20);
    expect(bench.told.every(([, speed]) => speed === 0)).toBe(true);
    expect(guide.state().isFinished).toBe(true);
    expect(guide.state().sentence).toContain('must never run dry');
  });
});
