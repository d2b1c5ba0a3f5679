import { Command, Option } from 'commander';
import { type ModelOptions, wholeNumberWithin, withModelOptions } from '../../rig/commandLine/modelOptions.ts';

/** How the program is started. */
export type StartOptions = ModelOptions & {
  readonly archive: string;
  readonly port: number;
  /** A real bench: its serial port, and its record's id in the archive or its file. */
  readonly portPath?: string;
  readonly bench?: string;
  /** Pump records to be put into the archive, by their files. */
  readonly pump?: readonly string[];
};

/** Reads the words behind `npm start --`; wrong ones end the program with exit code 2 and a word about what was expected. */
export function startOptions(argv: readonly string[]): StartOptions {
  const command = withModelOptions(new Command('npm start --'), 5)
    .description('Serves the bench book on this machine, with the practice bench or a real one.')
    .addOption(
      new Option('--archive <folder>', 'where everything is kept').default('./archive').env('SLIPWRIGHT_ARCHIVE'),
    )
    .addOption(
      new Option('--port <number>', 'the next free one is taken where it is not free')
        .default(4176)
        .env('SLIPWRIGHT_PORT')
        .argParser(wholeNumberWithin(0, 65_535)),
    )
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
