import { CommanderError } from 'commander';
import { codeOf, messageOf } from '../errors.ts';
import { addArchiveCommands } from './archiveCommands.ts';
import { addBenchCommands } from './benchCommands.ts';
import { addCertificateCommands } from './certificateCommands.ts';
import { CommandBook } from './commandBook.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import { addKeyCommands } from './keyCommands.ts';
import { addResultCommands } from './resultCommands.ts';

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

/**
 * Runs one command and gives the exit code; every refusal is said on stderr. What a command stands on is loaded when it is asked
 * for: filing a CSV needs no certificate writer and no serial port, which take half a second to load.
 */
export async function runCommandLine(args: readonly string[]): Promise<ExitCode> {
  const book = new CommandBook();
  addBenchCommands(book);
  addResultCommands(book);
  addCertificateCommands(book);
  addKeyCommands(book);
  addArchiveCommands(book);
  try {
    await book.program.parseAsync(args, { from: 'user' });
    return book.exitCode;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.wrongUse;
    const code = codeOf(error);
    process.stderr.write(`slipwright: ${messageOf(error)}\n`);
    if (code === undefined) throw error;
    return EXIT_BY_CODE[code] ?? EXIT.wrongUse;
  }
}
