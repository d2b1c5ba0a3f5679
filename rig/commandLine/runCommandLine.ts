import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { type RunKind, type RunRecord, runKind, runLabel } from '../../analysis/records/runRecord.ts';
import { type Archive, openArchive } from '../archive/openArchive.ts';
import { codeOf, messageOf } from '../errors.ts';
import { PROGRAM_VERSION } from '../programVersion.ts';
import { listPorts } from '../serial/listPorts.ts';
import { analyse } from './analyse.ts';
import { certify } from './certify.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import { importFile } from './importFile.ts';
import { numberWithin, withModelOptions } from './modelOptions.ts';
import { practice } from './practice.ts';
import { record } from './record.ts';
import { createSpeaker, type Speaker } from './speaker.ts';
import { verify } from './verify.ts';

/** How each code of an error ends the program; any other is wrong use of the command, said in its message. */
const EXIT_BY_CODE: Readonly<Record<string, ExitCode>> = {
  CHANGED: EXIT.changed,
  RUN: EXIT.dataSayNo,
  JOURNAL: EXIT.dataSayNo,
  CSV: EXIT.dataSayNo,
  GEOMETRY: EXIT.dataSayNo,
  MUST_NOT_RUN_DRY: EXIT.dataSayNo,
};

type Common = { readonly archive: string; readonly json: boolean };
type RunOptions = { readonly kind: RunKind; readonly label: RunRecord['label']; readonly operator: string };

function aboveZero(text: string): number {
  const value = Number(text);
  if (!(Number.isFinite(value) && value > 0)) throw new InvalidArgumentError('expected a number above zero');
  return value;
}

function withRunOptions(command: Command): Command {
  return command
    .requiredOption('--pump <id or file>', 'pump record')
    .addOption(new Option('--kind <kind>', 'kind of run').choices(runKind.options).default('delivery'))
    .addOption(new Option('--label <label>', 'state of the pump').choices(runLabel.options).default('as rebuilt'))
    .requiredOption('--operator <name>', 'who stands at the bench');
}

/** Runs one command and gives the exit code; every refusal is said on stderr. */
export async function runCommandLine(args: readonly string[]): Promise<ExitCode> {
  let exitCode: ExitCode = EXIT.done;
  const program = new Command('slipwright')
    .description('The bench book of a rebuilder of oil pumps.')
    .version(PROGRAM_VERSION)
    .exitOverride()
    .configureOutput({
      writeOut: (text) => process.stdout.write(text),
      writeErr: (text) => process.stderr.write(text),
    });

  const command = (nameAndArguments: string, description: string): Command =>
    program
      .command(nameAndArguments)
      .description(description)
      .option('--archive <folder>', 'the archive', 'archive')
      .option('--json', 'one JSON document on stdout', false);

  const withArchive = async (
    { archive: folder, json }: Common,
    work: (archive: Archive, speaker: Speaker) => ExitCode | Promise<ExitCode>,
  ): Promise<void> => {
    const speaker = createSpeaker(json);
    const archive = openArchive(folder);
    try {
      for (const recovery of archive.recoveries) {
        speaker.say(
          recovery.sealed
            ? `run ${recovery.runId} was cut off: sealed up to its last whole line (${recovery.closing.lineCount} lines)`
            : `run ${recovery.runId} was cut off and cannot be sealed: ${recovery.why}`,
        );
      }
      exitCode = await work(archive, speaker);
    } finally {
      archive.close();
    }
  };

  command('ports', 'list the serial ports of this machine').action(async ({ json }: Common) => {
    const ports = await listPorts();
    const text = ports.map(({ path, description }) => `${path}  ${description}`.trimEnd()).join('\n');
    createSpeaker(json).result(
      ports,
      text || 'no serial port is known to this machine; one can still be opened by its path',
    );
  });

  withModelOptions(withRunOptions(command('record', 'record a run from a bench')), 1)
    .option('--port <path>', 'serial port of the bench')
    .option('--bench <id or file>', 'bench record')
    .option('--conditions <file>', 'oil and set-up of the run')
    .option('--practice', 'start a practice bench and record it; the run steps itself', false)
    .option('--seconds <number>', 'stop after so long', aboveZero)
    .action((options: Common & Parameters<typeof record>[0]) =>
      withArchive(options, (archive, speaker) => record(options, archive, speaker)),
    );

  withRunOptions(command('import <file>', 'file a CSV of readings as a run'))
    .requiredOption('--bench <id or file>', 'bench record')
    .requiredOption('--conditions <file>', 'oil and set-up of the run')
    .option('--started-at <instant>', 'when the readings were taken, in UTC, as 2026-05-04T08:00:00Z')
    .action((file: string, options: Common & RunOptions & Parameters<typeof importFile>[1]) =>
      withArchive(options, (archive, speaker) => importFile(file, options, archive, speaker)),
    );

  command('analyse <run>', 'analyse a run anew').action((runId: string, options: Common) =>
    withArchive(options, (archive, speaker) => analyse(runId, archive, speaker)),
  );

  command('certify <run...>', 'file a certificate on runs of one pump')
    .requiredOption('--signatory <name>', 'who answers for it')
    .action((runIds: readonly string[], options: Common & { readonly signatory: string }) =>
      withArchive(options, (archive, speaker) => certify(runIds, options.signatory, archive, speaker)),
    );

  command('verify <file...>', 'check certificates: PDF, or JSON with its signature beside it').action(
    async (files: readonly string[], { json }: Common) => {
      exitCode = await verify(files, createSpeaker(json));
    },
  );

  withModelOptions(command('practice', 'run a practice bench on a pseudo-terminal'), 1)
    .option('--readings-per-s <number>', 'readings in a second of bench time', numberWithin(1, 1000), 50)
    .option('--truth', 'print at the end what the bench was built with', false)
    .action(async (options: Common & Parameters<typeof practice>[0]) => {
      exitCode = await practice(options, createSpeaker(options.json));
    });

  try {
    await program.parseAsync(args, { from: 'user' });
    return exitCode;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.wrongUse;
    const code = codeOf(error);
    process.stderr.write(`slipwright: ${messageOf(error)}\n`);
    if (code === undefined) throw error;
    return EXIT_BY_CODE[code] ?? EXIT.wrongUse;
  }
}
