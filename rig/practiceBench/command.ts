/** What the practice bench can be told on its line. */
export type Command =
  | { readonly kind: 'speed'; readonly speedRPerMin: number }
  | { readonly kind: 'valve'; readonly opening: number }
  | { readonly kind: 'pressure'; readonly gaugeBar: number }
  | { readonly kind: 'oil'; readonly temperatureC: number }
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
  oil: { min: 0, max: 100, unit: 'degC', command: (value: number): Command => ({ kind: 'oil', temperatureC: value }) },
} as const;
type NumberedWord = keyof typeof NUMBERED;

function isNumberedWord(word: string): word is NumberedWord {
  return Object.hasOwn(NUMBERED, word);
}

function refused(text: string, expected: string): CommandReading {
  return { understood: false, why: `did not understand '${text.slice(0, LARGEST_ECHO)}': expected ${expected}` };
}

/**
 * Reads one command: `speed R` [r/min], `valve F` [0 to 1], `pressure P` [bar(g)], `oil T` [degC], `dry`, `flood`.
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
  if ((word === 'dry' || word === 'flood') && argument === undefined) {
    return { understood: true, command: { kind: word } };
  }
  return refused(trimmed, 'speed, valve, pressure, oil, dry or flood');
}
