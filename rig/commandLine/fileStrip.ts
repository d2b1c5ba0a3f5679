import type { Archive } from '../archive/openArchive.ts';
import { readJsonFile } from '../archive/recordFile.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { Speaker } from './speaker.ts';

/** `slipwright strip`: files a strip sheet; runs of its pump from then on carry it. */
export function fileStrip(file: string, archive: Archive, speaker: Speaker): ExitCode {
  const sheet = archive.saveStrip(readJsonFile(file), file);
  speaker.result(sheet, `strip sheet ${sheet.id}, version ${sheet.version}, of pump ${sheet.pumpId} is filed`);
  return EXIT.done;
}
