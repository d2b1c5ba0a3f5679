import type { Archive } from '../archive/openArchive.ts';
import { writeWholeFile } from '../archive/wholeFile.ts';
import { filedTag } from '../certificate/filedTag.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { Speaker } from './speaker.ts';

export type TagOptions = { readonly out: string };

/** `slipwright tag`: what is tied on the pump, from a filed certificate. */
export async function tag(number: string, { out }: TagOptions, archive: Archive, speaker: Speaker): Promise<ExitCode> {
  writeWholeFile(out, await filedTag(archive.directory, number));
  speaker.result({ number, path: out }, `the tag of ${number}: ${out}`);
  return EXIT.done;
}
