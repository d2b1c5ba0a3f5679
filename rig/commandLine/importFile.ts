import { basename } from 'node:path';
import type { RunKind, RunRecord } from '../../analysis/records/runRecord.ts';
import type { Archive } from '../archive/openArchive.ts';
import { openSourceFile, type SourceFile } from '../archive/sourceFile.ts';
import { messageOf } from '../errors.ts';
import { PROGRAM_VERSION } from '../programVersion.ts';
import { analyseImported } from '../session/analyseStoredRun.ts';
import { stripSheetFor } from '../session/stripSheetFor.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import { benchFrom, conditionsFrom, pumpFrom } from './recordsFrom.ts';
import { resultText } from './resultText.ts';
import type { Speaker } from './speaker.ts';
import { WrongUse } from './wrongUse.ts';

export type ImportOptions = {
  readonly pump: string;
  readonly bench: string;
  readonly conditions: string;
  readonly kind: RunKind;
  readonly label: RunRecord['label'];
  readonly operator: string;
  /** When the readings were taken; the file itself does not say. */
  readonly startedAt?: string;
};

/** `slipwright import`: files a CSV as it is, as a run of its own, and analyses it. */
export async function importFile(
  file: string,
  options: ImportOptions,
  archive: Archive,
  speaker: Speaker,
): Promise<ExitCode> {
  let source: SourceFile;
  try {
    source = openSourceFile(file);
  } catch (error) {
    throw new WrongUse(`${file} cannot be read: ${messageOf(error)}`, { cause: error });
  }
  const { kind, label, operator, startedAt = new Date().toISOString() } = options;
  const { sealed, decoded } = await archive.importRun(basename(file), source, () => {
    const pump = pumpFrom(archive, options.pump);
    return {
      kind,
      label,
      operator,
      startedAtUtc: startedAt,
      startedMonotonicUs: 0,
      pump,
      stripSheet: stripSheetFor(archive, pump.id, label),
      bench: benchFrom(archive, options.bench),
      ...conditionsFrom(options.conditions),
      programVersion: PROGRAM_VERSION,
    };
  });
  speaker.say(`${file} was filed as run ${sealed.run.id}`);
  const result = await analyseImported(archive, sealed, decoded);
  speaker.result({ closing: sealed.closing, result }, resultText(result));
  return EXIT.done;
}
