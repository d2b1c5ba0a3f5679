import { Argument, Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { type RunKind, type RunRecord, runKind, runLabel } from '../../analysis/records/runRecord.ts';
import type { Archive } from '../archive/openArchive.ts';
import { codeOf, messageOf } from '../errors.ts';
import { PROGRAM_VERSION } from '../programVersion.ts';
import type { AnalyseOptions } from './analyse.ts';
import { addArchiveCommands } from './archiveCommands.ts';
import type { CertifyOptions } from './certify.ts';
import type { ExcludeOptions } from './exclude.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { FindOptions } from './find.ts';
import type { ImportOptions } from './importFile.ts';
import type { MapOptions } from './map.ts';
import { numberWithin, wholeNumberWithin, withModelOptions } from './modelOptions.ts';
import type { PracticeOptions } from './practice.ts';
import type { RecordOptions } from './record.ts';
import { createSpeaker, type Speaker } from './speaker.ts';
import type { TagOptions } from './tag.ts';
import type { WithdrawOptions } from './withdraw.ts';
import { withZeroOptions } from './zeroOptions.ts';

/** How each code of an error ends the program; any other is wrong use of the command, said in its message. */
const EXIT_BY_CODE: Readonly<Record<string, ExitCode>> = {
  CHANGED: EXIT.changed,
  TRANSFER: EXIT.changed,
  CERTIFICATE_STANDING: EXIT.dataSayNo,
  UNKNOWN_CERTIFICATE: EXIT.dataSayNo,
  RUN: EXIT.dataSayNo,
  JOURNAL: EXIT.dataSayNo,
  CSV: EXIT.dataSayNo,
  GEOMETRY: EXIT.dataSayNo,
  MUST_NOT_RUN_DRY: EXIT.dataSayNo,
  ZERO_TOO_SHORT: EXIT.dataSayNo,
  ZERO_NOTHING_TO_CHECK: EXIT.dataSayNo,
  ZERO_CHANNEL_SILENT: EXIT.dataSayNo,
  ZERO_SHAFT_TURNS: EXIT.dataSayNo,
  ZERO_WILD_READING: EXIT.dataSayNo,
  ZERO_NOT_STILL: EXIT.dataSayNo,
  ZERO_NOT_AT_REST: EXIT.dataSayNo,
};

/** Of an oil whose maker's sheet is not at hand; common practice, no source [1]. */
const PLAIN_VISCOSITY_INDEX = 95;

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

/**
 * Runs one command and gives the exit code; every refusal is said on stderr. What a command stands on is loaded when it is asked
 * for: filing a CSV needs no certificate writer and no serial port, which take half a second to load.
 */
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
    const { openArchive } = await import('../archive/openArchive.ts');
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
    const { listPorts } = await import('../serial/listPorts.ts');
    const ports = await listPorts();
    const text = ports.map(({ path, description }) => `${path}  ${description}`.trimEnd()).join('\n');
    createSpeaker(json).result(
      ports,
      text || 'no serial port is known to this machine; one can still be opened by its path',
    );
  });

  withZeroOptions(withModelOptions(withRunOptions(command('record', 'record a run from a bench')), 1))
    .option('--port <path>', 'serial port of the bench')
    .option('--bench <id or file>', 'bench record')
    .option('--conditions <file>', 'oil and set-up of the run')
    .option('--practice', 'start a practice bench and record it; the run steps itself', false)
    .option('--mounting <number>', 'how often the pump was mounted, this time included', wholeNumberWithin(1, 1000))
    .option('--seconds <number>', 'stop after so long', aboveZero)
    .addOption(
      new Option('--repeat <number>', 'practice: so many runs one after the other, prepared alike')
        .default(1)
        .argParser(wholeNumberWithin(1, 100)),
    )
    .option('--readings-per-s <number>', 'practice: readings in a second of bench time', numberWithin(1, 1000))
    .action((options: Common & RecordOptions) =>
      withArchive(options, async (archive, speaker) => {
        const { record } = await import('./record.ts');
        return record(options, archive, speaker);
      }),
    );

  withRunOptions(command('import <file>', 'file a CSV of readings as a run'))
    .requiredOption('--bench <id or file>', 'bench record')
    .requiredOption('--conditions <file>', 'oil and set-up of the run')
    .option('--started-at <instant>', 'when the readings were taken, in UTC, as 2026-05-04T08:00:00Z')
    .action((file: string, options: Common & RunOptions & ImportOptions) =>
      withArchive(options, async (archive, speaker) => {
        const { importFile } = await import('./importFile.ts');
        return importFile(file, options, archive, speaker);
      }),
    );

  command('strip <file>', 'file a strip sheet; runs of its pump carry it from then on').action(
    (file: string, options: Common) =>
      withArchive(options, async (archive, speaker) => {
        const { fileStrip } = await import('./fileStrip.ts');
        return fileStrip(file, archive, speaker);
      }),
  );

  command('exclude <run>', 'take a hold or a stretch of a run out of the fit, or back in')
    .option('--from <seconds>', 'where the stretch begins', numberWithin(0, 1e7))
    .option('--to <seconds>', 'where it ends', numberWithin(0, 1e7))
    .option('--hold <number>', 'a hold of the result in place of --from and --to', wholeNumberWithin(1, 1e5))
    .requiredOption('--reason <text>', 'why; it is kept and printed')
    .requiredOption('--person <name>', 'who says so')
    .option('--back', 'back into the fit', false)
    .action((runId: string, options: Common & ExcludeOptions) =>
      withArchive(options, async (archive, speaker) => {
        const { exclude } = await import('./exclude.ts');
        return exclude(runId, options, archive, speaker);
      }),
    );

  command('show <run>', 'show what was analysed; analyses a run that was not yet').action(
    (runId: string, options: Common) =>
      withArchive(options, async (archive, speaker) => {
        const { show } = await import('./show.ts');
        return show(runId, archive, speaker);
      }),
  );

  command('series <run>', "what the dry starts of a run's pump say together").action((runId: string, options: Common) =>
    withArchive(options, async (archive, speaker) => {
      const { series } = await import('./series.ts');
      return series(runId, archive, speaker);
    }),
  );

  command('analyse <run>', 'analyse a run anew')
    .option('--monte-carlo <trials>', 'the chain by so many trials besides, 1000 or more', numberWithin(1000, 1e7))
    .option('--seed <number>', 'of the trials', numberWithin(0, 2 ** 32 - 1), 1)
    .action((runId: string, options: Common & AnalyseOptions) =>
      withArchive(options, async (archive, speaker) => {
        const { analyse } = await import('./analyse.ts');
        return analyse(runId, options, archive, speaker);
      }),
    );

  command('map <run>', "efficiency of a run's law over speed and pressure")
    .requiredOption('--oil-temperature <degrees C>', 'at the pump inlet', numberWithin(-30, 200))
    .option('--grade <ISO VG>', "another oil than the run's own", aboveZero)
    .option('--viscosity-index <number>', 'of the other oil', numberWithin(0, 400), PLAIN_VISCOSITY_INDEX)
    .action((runId: string, options: Common & MapOptions) =>
      withArchive(options, async (archive, speaker) => {
        const { map } = await import('./map.ts');
        return map(runId, options, archive, speaker);
      }),
    );

  command('find [words...]', 'find pumps, runs and certificates')
    .option('--serial <number>', "the pump's serial number, from its beginning")
    .option('--machine <words>', 'the machine that the pump belongs to')
    .option('--what <what>', 'pump, run or certificate')
    .option('--pump <id>', 'what is about one pump')
    .option('--type <type>', "as 'external gear'")
    .option('--outcome <word>', "pass, fail, 'not proven' or measured")
    .option('--from <day>', 'begun or issued on that day or later, as 2026-11-26')
    .option('--to <day>', 'and on that day or before')
    .option('--page <number>', 'which page', wholeNumberWithin(1, 1e6), 1)
    .action((words: readonly string[], options: Common & FindOptions) =>
      withArchive(options, async (archive, speaker) => {
        const { find } = await import('./find.ts');
        return find(words, options, archive, speaker);
      }),
    );

  program
    .command('schema')
    .description("print the JSON Schema of what `analyse --json` says, or of a certificate's data")
    .addArgument(new Argument('[of]', 'which').choices(['result', 'certificate']).default('result'))
    .action(async (of: string) => {
      const { resultJsonSchema } = await import('../../analysis/resultSchema/resultJsonSchema.ts');
      const { certificateJsonSchema } = await import('../../analysis/certificate/certificateJsonSchema.ts');
      const schema = of === 'certificate' ? certificateJsonSchema() : resultJsonSchema();
      process.stdout.write(`${JSON.stringify(schema, null, 2)}\n`);
    });

  command('certify <run...>', 'file a certificate on runs of one pump')
    .requiredOption('--signatory <name>', 'who answers for it')
    .option('--replaces <number>', 'the certificate whose place it takes')
    .option('--reason <text>', 'why it takes that place; it is kept and printed')
    .option('--run-in-hours <number>', 'for how long the pump was run in', numberWithin(0, 1e5))
    .option('--preservative <text>', 'what the pump is preserved with, and how its ports are closed')
    .addOption(
      new Option('--cover-and-gasket <which>', 'which go into the machine').choices(['tested', 'other'] as const),
    )
    .option('--remarks <text>', 'anything else that the certificate is to say')
    .addOption(new Option('--paper <size>', 'of the PDF').choices(['A4', 'letter'] as const).default('A4'))
    .action((runIds: readonly string[], options: Common & CertifyOptions) =>
      withArchive(options, async (archive, speaker) => {
        const { certify } = await import('./certify.ts');
        return certify(runIds, options, archive, speaker);
      }),
    );

  const key = program.command('key').description("the workshop's signing key");
  const keyCommand = (name: string, description: string): Command =>
    key.command(name).description(description).option('--json', 'one JSON document on stdout', false);
  keyCommand('show', 'where it lies, and the fingerprint of its certificate').action(async ({ json }: Common) => {
    const { exportKey } = await import('./key.ts');
    exitCode = await exportKey(undefined, createSpeaker(json));
  });
  keyCommand('export', 'write its certificate, for those who verify')
    .requiredOption('--out <file>', 'where it is written; never over another file')
    .action(async ({ json, out }: Common & { readonly out: string }) => {
      const { exportKey } = await import('./key.ts');
      exitCode = await exportKey(out, createSpeaker(json));
    });
  keyCommand('protect', 'put it under the passphrase in SLIPWRIGHT_KEY_PASSPHRASE').action(async ({ json }: Common) => {
    const { protect } = await import('./key.ts');
    exitCode = protect(createSpeaker(json));
  });
  keyCommand('change', 'make a new one; the change is filed in the archive, signed by both')
    .option('--archive <folder>', 'the archive', 'archive')
    .requiredOption('--signatory <name>', 'who changes it')
    .requiredOption('--reason <text>', 'why; it is kept')
    .action((options: Common & { readonly signatory: string; readonly reason: string }) =>
      withArchive(options, async (archive, speaker) => {
        const { changeWorkshopKey } = await import('./key.ts');
        return changeWorkshopKey(options, archive, speaker);
      }),
    );

  command('tag <number>', "a small PDF to tie on the pump: the certificate's six numbers that matter")
    .requiredOption('--out <file>', 'where it is written; never over another file')
    .action((number: string, options: Common & TagOptions) =>
      withArchive(options, async (archive, speaker) => {
        const { tag } = await import('./tag.ts');
        return tag(number, options, archive, speaker);
      }),
    );

  command('withdraw <number>', 'withdraw a certificate, with the reason; it stays, and a signed notice beside it')
    .requiredOption('--signatory <name>', 'who withdraws it')
    .requiredOption('--reason <text>', 'why; it is kept and shown')
    .action((number: string, options: Common & WithdrawOptions) =>
      withArchive(options, async (archive, speaker) => {
        const { withdraw } = await import('./withdraw.ts');
        return withdraw(number, options, archive, speaker);
      }),
    );

  command('verify <file...>', 'check certificates: PDF, or JSON with its signature beside it').action(
    async (files: readonly string[], { archive, json }: Common) => {
      const { verify } = await import('./verify.ts');
      exitCode = await verify(files, archive, createSpeaker(json));
    },
  );

  command('replay <certificate>', 'do a certificate anew from the journals and compare every number').action(
    (certificate: string, options: Common) =>
      withArchive(options, async (archive, speaker) => {
        const { replay } = await import('./replay.ts');
        return replay(certificate, archive, speaker);
      }),
  );

  addArchiveCommands(program, (code) => {
    exitCode = code;
  });

  withModelOptions(command('practice', 'run a practice bench on a pseudo-terminal'), 1)
    .option('--readings-per-s <number>', 'readings in a second of bench time', numberWithin(1, 1000), 50)
    .option('--truth', 'print at the end what the bench was built with', false)
    .action(async (options: Common & PracticeOptions) => {
      const { practice } = await import('./practice.ts');
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
