import { printFixed } from '../../../analysis/formatStated.ts';
import { BAD_LINE_KINDS, type BadLineKind } from '../../../analysis/readings.ts';
import type { SessionState } from '../../api.ts';

const KIND_WORDS: Readonly<Record<BadLineKind, string>> = {
  checksum: 'with a wrong checksum',
  fieldCount: 'with too few or too many fields',
  notANumber: 'with something that is no number',
  prefix: 'without the prefix',
  tooLong: 'too long',
  torn: 'torn',
  clockJump: 'with a jump of the clock',
};

function badLineWords(counts: SessionState['badLineCounts']): string {
  const parts = BAD_LINE_KINDS.flatMap((kind) => {
    const count = counts[kind] ?? 0;
    return count === 0 ? [] : [`${count} ${KIND_WORDS[kind]}`];
  });
  return parts.length === 0 ? 'none bad' : `bad ones: ${parts.join(', ')}`;
}

/** Longer than this without a line is worth a look [ms]. */
const QUIET_MS = 2_000;

function isQuiet(quietForMs: number | null): boolean {
  return quietForMs === null || quietForMs > QUIET_MS;
}

function gapWords(quietForMs: number | null): string {
  if (quietForMs === null) return '▲ No line has come yet: look at cable, port and controller.';
  if (!isQuiet(quietForMs)) return `The last line came ${Math.round(quietForMs)} ms ago.`;
  return `▲ Nothing has come for ${printFixed(quietForMs / 1e3, 0)} s: look at cable, port and controller. It goes on by itself.`;
}

/** How the line fares: lines a second, bad ones by kind, and how much is not yet on the disk. */
export function LineHealth({ state }: { readonly state: SessionState }) {
  const { openRun } = state;
  return (
    <div data-testid="line-health">
      <p>
        {Math.round(state.linesPerS)} lines a second, {badLineWords(state.badLineCounts)}.
      </p>
      <p class={isQuiet(state.quietForMs) ? 'look-here' : ''} data-testid="line-gap">
        {gapWords(state.quietForMs)}
      </p>
      {openRun === null ? (
        <p class="faint">Nothing is being recorded: these readings are shown and forgotten.</p>
      ) : (
        <p>
          {openRun.lineCount} lines in the journal;{' '}
          {openRun.oldestUnsyncedMs === 0
            ? 'all of them are on the disk.'
            : `the oldest line not yet on the disk is ${Math.round(openRun.oldestUnsyncedMs)} ms old.`}
        </p>
      )}
    </div>
  );
}
