import type { Command } from 'commander';
import type { CommandBook, Common } from './commandBook.ts';
import { createSpeaker } from './speaker.ts';

/** The commands on an archive as a whole: `slipwright archive check` and its like. */
export function addArchiveCommands(book: CommandBook): void {
  const group = book.program.command('archive').description('check, rebuild, export and import an archive as a whole');
  const command = (nameAndArguments: string, description: string): Command =>
    book.command(nameAndArguments, description, group);

  command('check', 'read every file and say what is wrong; writes nothing').action(
    async ({ archive, json }: Common) => {
      const { archiveCheck } = await import('./archiveCheck.ts');
      book.exitCode = await archiveCheck(archive, createSpeaker(json));
    },
  );

  command('rebuild', 'make the index anew from the files').action(async ({ archive, json }: Common) => {
    const { archiveRebuild } = await import('./archiveRebuild.ts');
    book.exitCode = archiveRebuild(archive, createSpeaker(json));
  });

  command('export <pump>', "pack a pump's whole history into one zip, with a page that opens in any browser")
    .option('--to <file>', 'the zip; left out: the id of the pump and .zip')
    .action(async (pump: string, options: Common & { readonly to?: string }) => {
      const { archiveExport } = await import('./archiveTransfer.ts');
      book.exitCode = await archiveExport(
        pump,
        options.to ?? `${pump}.zip`,
        options.archive,
        createSpeaker(options.json),
      );
    });

  command('import <zip>', 'take the history of a pump from such a zip; refuses what does not verify').action(
    async (zip: string, { archive, json }: Common) => {
      const { archiveImport } = await import('./archiveTransfer.ts');
      book.exitCode = await archiveImport(zip, archive, createSpeaker(json));
    },
  );
}
