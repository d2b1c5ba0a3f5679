import { Command, InvalidArgumentError, Option } from 'commander';
import { PRACTICE_SCENARIOS, type PracticeScenario, practiceScenario } from '../../rig/practiceBench/pumpTruth.ts';

/** How the program is started. */
export type StartOptions = {
  readonly archive: string;
  readonly port: number;
  readonly scenario: PracticeScenario;
  readonly seed: number;
  readonly speedUp: number;
  /** A real bench: its serial port, and its record's id in the archive or its file. */
  readonly portPath?: string;
  readonly bench?: string;
  /** Pump records to be put into the archive, by their files. */
  readonly pump?: readonly string[];
};

function wholeNumber(from: number, to: number): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (/^\d+$/.test(text) && value >= from && value <= to) return value;
    throw new InvalidArgumentError(`Expected a whole number from ${from} to ${to}.`);
  };
}

function speedUp(text: string): number {
  const value = Number(text);
  if (value >= 0.1 && value <= 100) return value;
  throw new InvalidArgumentError('Expected a number from 0.1 to 100.');
}

function scenario(text: string): PracticeScenario {
  const parsed = practiceScenario.safeParse(text);
  if (parsed.success) return parsed.data;
  throw new InvalidArgumentError(`Expected one of ${PRACTICE_SCENARIOS.join(', ')}.`);
}

/** Reads the words behind `npm start --`; wrong ones end the program with exit code 2 and a word about what was expected. */
export function startOptions(argv: readonly string[]): StartOptions {
  const command = new Command('npm start --')
    .description('Serves the bench book on this machine, with the practice bench or a real one.')
    .addOption(
      new Option('--archive <folder>', 'where everything is kept').default('./archive').env('SLIPWRIGHT_ARCHIVE'),
    )
    .addOption(
      new Option('--port <number>', 'the next free one is taken where it is not free')
        .default(4176)
        .env('SLIPWRIGHT_PORT')
        .argParser(wholeNumber(0, 65_535)),
    )
    .addOption(new Option('--scenario <name>', PRACTICE_SCENARIOS.join(', ')).default('healthy').argParser(scenario))
    .addOption(new Option('--seed <number>', 'of the practice bench').default(1).argParser(wholeNumber(0, 2 ** 31)))
    .addOption(new Option('--speed-up <factor>', 'of the practice bench').default(5).argParser(speedUp))
    .addOption(new Option('--port-path <path>', 'serial port of a real bench; needs --bench'))
    .addOption(new Option('--bench <id or file>', 'bench record of the real bench; needs --port-path'))
    .addOption(new Option('--pump <file...>', 'pump records to be put into the archive'))
    .exitOverride((error) => process.exit(error.exitCode === 0 ? 0 : 2));
  const options: StartOptions = command.parse(argv, { from: 'user' }).opts();
  if ((options.portPath === undefined) !== (options.bench === undefined)) {
    command.error('error: a real bench needs both, --port-path and --bench');
  }
  return options;
}
