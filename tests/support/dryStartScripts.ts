import type { TimedCommand } from './practiceRun.ts';

/** Suction shut at the flange: 300 r/min, a rest in which the suction comes back by itself, 600 r/min. */
export function twoBlankedSpeeds(): readonly TimedCommand[] {
  return [
    ...['speed 0', 'dry', 'valve 1', 'blank 1'].map((command) => ({ atS: 0, command })),
    { atS: 2, command: 'speed 300' },
    { atS: 9, command: 'speed 0' },
    { atS: 16, command: 'speed 600' },
    { atS: 23, command: 'speed 0' },
  ];
}
