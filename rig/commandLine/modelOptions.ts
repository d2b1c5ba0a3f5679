import { type Command, InvalidArgumentError, Option } from 'commander';
import { PRACTICE_SCENARIOS, type PracticeScenario } from '../practiceBench/pumpTruth.ts';

/** What a practice bench is started with, on any command line. */
export type ModelOptions = { readonly scenario: PracticeScenario; readonly seed: number; readonly speedUp: number };

/** Reads a number from one bound to another, both allowed; a word that is none is refused with the bounds. */
export function numberWithin(from: number, to: number): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (text.trim() !== '' && value >= from && value <= to) return value;
    throw new InvalidArgumentError(`Expected a number from ${from} to ${to}.`);
  };
}

/** As {@link numberWithin}, whole numbers alone. */
export function wholeNumberWithin(from: number, to: number): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (/^\d+$/.test(text) && value >= from && value <= to) return value;
    throw new InvalidArgumentError(`Expected a whole number from ${from} to ${to}.`);
  };
}

/** Adds the options of the practice bench to a command. */
export function withModelOptions(command: Command, defaultSpeedUp: number): Command {
  return command
    .addOption(new Option('--scenario <name>', 'which practice pump').choices(PRACTICE_SCENARIOS).default('healthy'))
    .addOption(
      new Option('--seed <number>', 'seed of the practice bench').default(1).argParser(wholeNumberWithin(0, 2 ** 31)),
    )
    .addOption(
      new Option('--speed-up <factor>', 'bench seconds in a second')
        .default(defaultSpeedUp)
        .argParser(numberWithin(0.1, 100)),
    );
}
