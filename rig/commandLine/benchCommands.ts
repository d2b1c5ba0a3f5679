import { type Command, Option } from 'commander';
import { type RunKind, type RunRecord, runKind, runLabel } from '../../analysis/records/runRecord.ts';
import type { CommandBook, Common } from './commandBook.ts';
import type { ImportOptions } from './importFile.ts';
import { aboveZero, numberWithin, wholeNumberWithin, withModelOptions } from './modelOptions.ts';
import type { PracticeOptions } from './practice.ts';
import type { RecordOptions } from './record.ts';
import { createSpeaker } from './speaker.ts';
import { withZeroOptions } from './zeroOptions.ts';

type RunOptions = { readonly kind: RunKind; readonly label: RunRecord['label']; readonly operator: string };

function withRunOptions(command: Command): Command {
  return command
    .requiredOption('--pump <id or file>', 'pump record')
    .addOption(new Option('--kind <kind>', 'kind of run').choices(runKind.options).default('delivery'))
    .addOption(new Option('--label <label>', 'state of the pump').choices(runLabel.options).default('as rebuilt'))
    .requiredOption('--operator <name>', 'who stands at the bench');
}

/** The commands by which readings come in: `slipwright record` and its like. */
export function addBenchCommands(book: CommandBook): void {
  const { command, withArchive } = book;
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

  withModelOptions(command('practice', 'run a practice bench on a pseudo-terminal'), 1)
    .option('--readings-per-s <number>', 'readings in a second of bench time', numberWithin(1, 1000), 50)
    .option('--truth', 'print at the end what the bench was built with', false)
    .action(async (options: Common & PracticeOptions) => {
      const { practice } = await import('./practice.ts');
      book.exitCode = await practice(options, createSpeaker(options.json));
    });
}
