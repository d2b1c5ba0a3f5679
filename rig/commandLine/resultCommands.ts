import { Argument } from 'commander';
import type { AnalyseOptions } from './analyse.ts';
import type { CommandBook, Common } from './commandBook.ts';
import type { ExcludeOptions } from './exclude.ts';
import type { FindOptions } from './find.ts';
import type { MapOptions } from './map.ts';
import { aboveZero, numberWithin, wholeNumberWithin } from './modelOptions.ts';

/** Of an oil whose maker's sheet is not at hand; common practice, no source [1]. */
const PLAIN_VISCOSITY_INDEX = 95;

/** The commands on what runs say: `slipwright analyse` and its like. */
export function addResultCommands(book: CommandBook): void {
  const { program, command, withArchive } = book;
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
}
