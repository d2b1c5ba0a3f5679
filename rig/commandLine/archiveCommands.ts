import type { Command } from 'commander';
import type { ExitCode } from './exitCodes.ts';
import { createSpeaker } from './speaker.ts';

type Common = { readonly archive: string; readonly json: boolean };

/** The commands on an archive as a whole: `slipwright archive check` and its like. */
export function addArchiveCommands(program: Command, end: (exitCode: ExitCode) => void): void {
  const group = program.command('archive').description('check, rebuild, export and import an archive as a whole');
  const command = (nameAndArguments: string, description: string): Command =>
    group
      .command(nameAndArguments)
      .description(description)
      .option('--archive <folder>', 'the archive', 'archive')
      .option('--json', 'one JSON document on stdout', false);

  command('check', 'read every file and say what is wrong; writes nothing').action(
    async ({ archive, json }: Common) => {
      const { archiveCheck } = await import('./archiveCheck.ts');
      end(await archiveCheck(archive, createSpeaker(json)));
    },
  );

  command('rebuild', 'make the index anew from the files').action(async ({ archive, json }: Common) => {
    const { archiveRebuild } = await import('./archiveRebuild.ts');
    end(archiveRebuild(archive, createSpeaker(json)));
  });

  command('export <pump>', "pack a pump's whole history into one zip, with a page that opens in any browser")
    .option('--to <file>', 'the zip; left out: the id of the pump and .zip')
    .action(async (pump: string, options: Common & { readonly to?: string }) => {
      const { archiveExport } = await import('./archiveTransfer.ts');
      end(await archiveExport(pump, options.to ?? `${pump}.zip`, options.archive, createSpeaker(options.json)));
    });

  command('import <zip>', 'take the history of a pump from such a zip; refuses what does not verify').action(
    async (zip: string, { archive, json }: Common) => {
      const { archiveImport } = await import('./archiveTransfer.ts');
      end(await archiveImport(zip, archive, createSpeaker(json)));
    },
  );
}
