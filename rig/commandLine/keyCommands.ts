import type { Command } from 'commander';
import type { CommandBook, Common } from './commandBook.ts';
import { createSpeaker } from './speaker.ts';

/** The commands on the workshop's signing key: `slipwright key show` and its like. */
export function addKeyCommands(book: CommandBook): void {
  const key = book.program.command('key').description("the workshop's signing key");
  const keyCommand = (name: string, description: string): Command =>
    key.command(name).description(description).option('--json', 'one JSON document on stdout', false);
  keyCommand('show', 'where it lies, and the fingerprint of its certificate').action(async ({ json }: Common) => {
    const { exportKey } = await import('./key.ts');
    book.exitCode = await exportKey(undefined, createSpeaker(json));
  });
  keyCommand('export', 'write its certificate, for those who verify')
    .requiredOption('--out <file>', 'where it is written; never over another file')
    .action(async ({ json, out }: Common & { readonly out: string }) => {
      const { exportKey } = await import('./key.ts');
      book.exitCode = await exportKey(out, createSpeaker(json));
    });
  keyCommand('protect', 'put it under the passphrase in SLIPWRIGHT_KEY_PASSPHRASE').action(async ({ json }: Common) => {
    const { protect } = await import('./key.ts');
    book.exitCode = protect(createSpeaker(json));
  });
  keyCommand('change', 'make a new one; the change is filed in the archive, signed by both')
    .option('--archive <folder>', 'the archive', 'archive')
    .requiredOption('--signatory <name>', 'who changes it')
    .requiredOption('--reason <text>', 'why; it is kept')
    .action((options: Common & { readonly signatory: string; readonly reason: string }) =>
      book.withArchive(options, async (archive, speaker) => {
        const { changeWorkshopKey } = await import('./key.ts');
        return changeWorkshopKey(options, archive, speaker);
      }),
    );
}
