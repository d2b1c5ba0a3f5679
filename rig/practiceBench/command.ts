import { type PumpKind, pumpKind } from './pumpKind.ts';

/** What the practice bench can be told on its line. */
export type Command =
  | { readonly kind: 'speed'; readonly speedRPerMin: number }
  | { readonly kind: 'valve'; readonly opening: number }
  | { readonly kind: 'pressure'; readonly gaugeBar: number }
  | { readonly kind: 'ramp'; readonly gaugeBar: number; readonly overS: number }
  | { readonly kind: 'inlet'; readonly absoluteBar: number }
  | { readonly kind: 'oil'; readonly temperatureC: number }
  | { readonly kind: 'suction'; readonly opening: number }
  | { readonly kind: 'blank'; readonly isShut: boolean }
  | { readonly kind: 'hold'; readonly isShut: boolean }
  | { readonly kind: 'pump'; readonly pump: PumpKind }
  | { readonly kind: 'dry' }
  | { readonly kind: 'flood' };

export type CommandReading =
  | { readonly understood: true; readonly command: Command }
  | { readonly understood: false; readonly why: string };

const LARGEST_ECHO = 40;
const DECIMAL = /^-?\d{1,6}(\.\d{1,6})?$/;

const NUMBERED = {
  speed: {
    min: 0,
    max: 1800,
    unit: 'r/min',
    command: (value: number): Command => ({ kind: 'speed', speedRPerMin: value }),
  },
  valve: { min: 0, max: 1, unit: 'open', command: (value: number): Command => ({ kind: 'valve', opening: value }) },
  pressure: {
    min: 0,
    max: 7.5,
    unit: 'bar(g)',
    command: (value: number): Command => ({ kind: 'pressure', gaugeBar: value }),
  },
  inlet: {
    min: 0.05,
    max: 1.1,
    unit: 'bar(a)',
    command: (value: number): Command => ({ kind: 'inlet', absoluteBar: value }),
  },
  oil: { min: 0, max: 100, unit: 'degC', command: (value: number): Command => ({ kind: 'oil', temperatureC: value }) },
  suction: { min: 0, max: 1, unit: 'open', command: (value: number): Command => ({ kind: 'suction', opening: value }) },
  blank: {
    min: 0,
    max: 1,
    unit: 'shut from half',
    command: (value: number): Command => ({ kind: 'blank', isShut: value >= 0.5 }),
  },
  hold: {
    min: 0,
    max: 1,
    unit: 'shut from half',
    command: (value: number): Command => ({ kind: 'hold', isShut: value >= 0.5 }),
  },
} as const;
type NumberedWord = keyof typeof NUMBERED;

function isNumberedWord(word: string): word is NumberedWord {
  return Object.hasOwn(NUMBERED, word);
}

function refused(text: string, expected: string): CommandReading {
  return { understood: false, why: `did not understand '${text.slice(0, LARGEST_ECHO)}': expected ${expected}` };
}

/** The one command with two numbers: what the gauge is to climb or fall to, and over how long. */
const RAMP = { longestS: 600, expected: 'ramp 0 to 7.5 [bar(g)] 1 to 600 [s]' } as const;

function readRamp(trimmed: string, numbers: readonly string[]): CommandReading {
  const [gaugeBar = Number.NaN, overS = Number.NaN] = numbers.map((text) => (DECIMAL.test(text) ? Number(text) : NaN));
  const { min, max } = NUMBERED.pressure;
  const isWithin = gaugeBar >= min && gaugeBar <= max && overS >= 1 && overS <= RAMP.longestS && numbers.length === 2;
  return isWithin ? { understood: true, command: { kind: 'ramp', gaugeBar, overS } } : refused(trimmed, RAMP.expected);
}

function readPump(trimmed: string, argument: string): CommandReading {
  const pump = pumpKind.safeParse(argument);
  return pump.success
    ? { understood: true, command: { kind: 'pump', pump: pump.data } }
    : refused(trimmed, `pump ${pumpKind.options.join(', ')}`);
}

/**
 * Reads one command: `speed R` [r/min], `valve F` [0 to 1], `pressure P` [bar(g)], `ramp P S` (an even climb or fall of the
 * pressure [bar(g)] over S [s]), `oil T` [degC], `dry`, `flood`, `suction F` (throttle in the suction pipe), `inlet P`
 * (the throttle turned until the inlet stands at P [bar(a)]), `blank 1` (valve at the pump flange shut: the pump draws on its dead volume),
 * `hold 1` (the same, but the pressure tapping stays with the pipe), `pump KIND` (another pump in place of the one that stands there, dry).
 *
 * @param text - the line, with or without blanks and line end around it [-]
 * @returns the command, or why it was not understood; never throws [-]
 */
export function readCommand(text: string): CommandReading {
  const trimmed = text.trim();
  const [word = '', argument, ...more] = trimmed.split(/ +/);
  if (isNumberedWord(word)) {
    const { min, max, unit, command } = NUMBERED[word];
    const value = argument !== undefined && DECIMAL.test(argument) ? Number(argument) : Number.NaN;
    const isWithin = value >= min && value <= max && more.length === 0;
    return isWithin
      ? { understood: true, command: command(value) }
      : refused(trimmed, `${word} ${min} to ${max} [${unit}]`);
  }
  if (word === 'ramp') return readRamp(trimmed, argument === undefined ? [] : [argument, ...more]);
  if (word === 'pump') return readPump(trimmed, [argument ?? '', ...more].join(' '));
  if ((word === 'dry' || word === 'flood') && argument === undefined) {
    return { understood: true, command: { kind: word } };
  }
  return refused(trimmed, 'speed, valve, pressure, ramp, oil, suction, inlet, blank, hold, pump, dry or flood');
}
