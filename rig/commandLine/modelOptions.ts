import { type Command, InvalidArgumentError, Option } from 'commander';
import { z } from 'zod';
import { type PracticePlant, practicePlant } from '../practiceBench/plant.ts';
import { PRACTICE_SCENARIOS, type PracticeScenario } from '../practiceBench/pumpTruth.ts';

/** What a practice bench is started with, on any command line. */
export type ModelOptions = {
  readonly scenario: PracticeScenario;
  readonly seed: number;
  readonly speedUp: number;
  /** Faults and features besides. */
  readonly plant?: PracticePlant;
};

/** Reads a number from one bound to another, both allowed; a word that is none is refused with the bounds. */
export function numberWithin(from: number, to: number): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (text.trim() !== '' && value >= from && value <= to) return value;
    throw new InvalidArgumentError(`Expected a number from ${from} to ${to}.`);
  };
}

/** Reads a number above zero. */
export function aboveZero(text: string): number {
  const value = Number(text);
  if (!(Number.isFinite(value) && value > 0)) throw new InvalidArgumentError('Expected a number above zero.');
  return value;
}

/** As {@link numberWithin}, whole numbers alone. */
export function wholeNumberWithin(from: number, to: number): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (/^\d+$/.test(text) && value >= from && value <= to) return value;
    throw new InvalidArgumentError(`Expected a whole number from ${from} to ${to}.`);
  };
}

/** Reads what is planted in a practice bench; what is not understood is refused with its name. */
function planted(text: string): PracticePlant {
  let document: unknown;
  try {
    document = JSON.parse(text);
  } catch {
    throw new InvalidArgumentError('Expected JSON.');
  }
  const plant = practicePlant.safeParse(document);
  if (!plant.success) throw new InvalidArgumentError(z.prettifyError(plant.error));
  return plant.data;
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
    )
    .addOption(
      new Option('--plant <json>', 'faults and features of the practice bench, {"relief": {…}}').argParser(planted),
    );
}
