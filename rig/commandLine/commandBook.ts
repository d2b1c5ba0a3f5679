import { Command } from 'commander';
import type { Archive } from '../archive/openArchive.ts';
import { PROGRAM_VERSION } from '../programVersion.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import { createSpeaker, type Speaker } from './speaker.ts';

/** Options of every command. */
export type Common = { readonly archive: string; readonly json: boolean };

/** The commands as they are put together, and how the one that was called ends. */
export class CommandBook {
  readonly program = new Command('slipwright')
    .description('The bench book of a rebuilder of oil pumps.')
    .version(PROGRAM_VERSION)
    .exitOverride()
    .configureOutput({
      writeOut: (text) => process.stdout.write(text),
      writeErr: (text) => process.stderr.write(text),
    });
  exitCode: ExitCode = EXIT.done;

  /** Adds a command with the options of every one, to the program or to a group of it. */
  readonly command = (nameAndArguments: string, description: string, group = this.program): Command =>
    group
      .command(nameAndArguments)
      .description(description)
      .option('--archive <folder>', 'the archive', 'archive')
      .option('--json', 'one JSON document on stdout', false);

  /** Opens the archive for a command, says what was recovered in it, and closes it again. */
  readonly withArchive = async (
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
      this.exitCode = await work(archive, speaker);
    } finally {
      archive.close();
    }
  };
}
