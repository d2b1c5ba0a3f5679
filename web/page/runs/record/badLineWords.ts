import type { ReadingsWindow } from '../../../api.ts';

type BadLine = ReadingsWindow['badLines'][number];

const KIND_WORDS: Readonly<Record<BadLine['kinds'][number], string>> = {
  checksum: 'a wrong checksum',
  fieldCount: 'too few fields',
  notANumber: 'no numbers',
  prefix: 'another beginning',
  tooLong: 'no end',
  torn: 'torn',
  clockJump: 'a clock that jumped',
  reconnected: 'the bench came back',
};

/** Under the drawing: what the ticks are. */
export const badLineWords = 'Ticks below: lines that held no reading.';

/** How many lines of a stretch held no reading, and why. */
export function badLinesSentence(badLines: readonly BadLine[]): string {
  const count = badLines.reduce((sum, line) => sum + line.count, 0);
  const kinds = [...new Set(badLines.flatMap((line) => line.kinds))].map((kind) => KIND_WORDS[kind]);
  return `${count} ${count === 1 ? 'line' : 'lines'} of this stretch held no reading: ${kinds.join(', ')}.`;
}
