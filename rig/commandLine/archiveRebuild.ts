import { rebuildArchive } from '../archive/rebuildArchive.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { Speaker } from './speaker.ts';

/** `slipwright archive rebuild`: makes the index anew from the files. */
export function archiveRebuild(directory: string, speaker: Speaker): ExitCode {
  const rebuilt = rebuildArchive(directory);
  const { unread, cleared } = rebuilt;
  speaker.result(
    rebuilt,
    [
      ...unread.map((text) => `left out: ${text}`),
      `the index was made anew from the files${cleared > 0 ? `; ${cleared} half-written files were cleared away` : ''}`,
    ].join('\n'),
  );
  return unread.length === 0 ? EXIT.done : EXIT.changed;
}
