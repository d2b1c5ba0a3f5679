import { Option } from 'commander';
import type { CertifyOptions } from './certify.ts';
import type { CommandBook, Common } from './commandBook.ts';
import { numberWithin } from './modelOptions.ts';
import { createSpeaker } from './speaker.ts';
import type { TagOptions } from './tag.ts';
import type { WithdrawOptions } from './withdraw.ts';

/** The commands on certificates: `slipwright certify` and its like. */
export function addCertificateCommands(book: CommandBook): void {
  const { command, withArchive } = book;
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
      book.exitCode = await verify(files, archive, createSpeaker(json));
    },
  );

  command('replay <certificate>', 'do a certificate anew from the journals and compare every number').action(
    (certificate: string, options: Common) =>
      withArchive(options, async (archive, speaker) => {
        const { replay } = await import('./replay.ts');
        return replay(certificate, archive, speaker);
      }),
  );
}
