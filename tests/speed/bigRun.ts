import { closeSync, openSync, writeSync } from 'node:fs';
import { uniform } from '../support/random.ts';

/** An hour at 1000 readings a second, seven columns: invented, and the same for a seed on every machine. */
const READINGS_PER_S = 1000;
const DURATION_S = 3600;
const SET_POINT_S = 120;

const HEADINGS =
  'elapsed [s],suctionPressure [bar(a)],deliveryPressure [bar(g)],flow [l/min],speed [r/min],oilTemperature [degC],caseTemperature [degC]';

/** Thirty set points: three speeds by ten pressures, in steps up. */
const SPEEDS_RPM = [540, 900, 1125] as const;
const PRESSURES = 10;

export const BIG_RUN = { rows: READINGS_PER_S * DURATION_S, holds: DURATION_S / SET_POINT_S } as const;

type State = { readonly speedRpm: number; readonly gaugeBar: number };

function stateAt(second: number): State {
  const point = Math.min(BIG_RUN.holds - 1, Math.floor(second / SET_POINT_S));
  const speedRpm = SPEEDS_RPM[Math.floor(point / PRESSURES)] ?? SPEEDS_RPM[0];
  return { speedRpm, gaugeBar: 0.5 + (3.5 * (point % PRESSURES)) / (PRESSURES - 1) };
}

/**
 * Writes the big run as a CSV file. Flow is that of a made-up pump of 13.9 cm³ with 50 mm³/(s bar) of slip for each bar.
 *
 * @param path - the file, replaced [-]
 * @param seed - of the noise [-]
 */
export function writeBigRun(path: string, seed: number): void {
  const next = uniform(seed);
  /** Nearly normal, unit deviation: three uniform numbers are enough for noise. */
  const noise = (): number => 2 * (next() + next() + next() - 1.5);
  const file = openSync(path, 'w');
  try {
    writeSync(file, `${HEADINGS}\n`);
    for (let second = 0; second < DURATION_S; second += 1) {
      const { speedRpm, gaugeBar } = stateAt(second);
      const suctionBar = 0.96;
      const riseBar = gaugeBar + 1.01325 - suctionBar;
      const flowLPerMin = (13.9e-6 * (speedRpm / 60) - 5e-6 * riseBar) * 6e4;
      const oilC = 45 + 0.3 * Math.sin(second / 600);
      const rows: string[] = [];
      for (let reading = 0; reading < READINGS_PER_S; reading += 1) {
        rows.push(
          `${second}.${String(reading).padStart(3, '0')},${(suctionBar + 4e-4 * noise()).toFixed(4)},${(gaugeBar + 2e-3 * noise()).toFixed(4)},${(flowLPerMin + 0.01 * noise()).toFixed(3)},${(speedRpm + 0.3 * noise()).toFixed(2)},${(oilC + 0.02 * noise()).toFixed(2)},${(oilC + 6 + 0.02 * noise()).toFixed(2)}`,
        );
      }
      writeSync(file, `${rows.join('\n')}\n`);
    }
  } finally {
    closeSync(file);
  }
}
