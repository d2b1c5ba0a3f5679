import { CHANNEL_NAMES, type ChannelName } from './channels.ts';
import { type BlockExtremes, blockExtremes, extremeRows } from './extremeRows.ts';
import { BAD_LINE_KINDS, type BadLineKind, type BadLines, firstAtOrAfter, type Readings } from './readings.ts';

/** A run's readings with what finds their extremes quickly. */
export type SearchedReadings = {
  readonly readings: Readings;
  readonly blocks: Readonly<Partial<Record<ChannelName, BlockExtremes>>>;
  readonly badLines: BadLines;
};

/** A channel within a stretch: each value at its own time, oldest first; null where it is missing. */
type WindowChannel = { readonly elapsedS: readonly number[]; readonly values: readonly (number | null)[] };

/** Lines of one dot that held no reading, and what was wrong with them. */
type BadLineMark = {
  readonly elapsedS: number;
  readonly count: number;
  readonly kinds: readonly (BadLineKind | 'reconnected')[];
};

/** A stretch of a run to be drawn, as plain JSON. */
export type ReadingsWindow = {
  readonly fromS: number;
  readonly toS: number;
  /** Time of the run's last reading [s]. */
  readonly lastS: number;
  /** Readings in the stretch. */
  readonly rowCount: number;
  /** Whether every one of them is here; else the extremes of each dot are. */
  readonly isWhole: boolean;
  readonly channels: Readonly<Partial<Record<ChannelName, WindowChannel>>>;
  readonly badLines: readonly BadLineMark[];
};

/**
 * Makes a run ready to be looked at closely.
 *
 * @param readings - of the run [SI]
 * @param badLines - lines that held none [s]
 * @returns both, with the extremes of every block of each channel [-]
 */
export function searchedReadings(readings: Readings, badLines: BadLines): SearchedReadings {
  const blocks: Partial<Record<ChannelName, BlockExtremes>> = {};
  for (const name of CHANNEL_NAMES) {
    const column = readings.channels[name];
    if (column !== undefined) blocks[name] = blockExtremes(column);
  }
  return { readings, blocks, badLines };
}

/** Rows where dots begin, the end behind the last; a dot without a reading begins where the next does. */
function dotEdges(elapsedS: Float64Array, from: number, to: number, fromS: number, dotS: number, dots: number) {
  const edges = [from];
  for (let dot = 1; dot < dots; dot += 1) {
    edges.push(Math.min(to, Math.max(edges.at(-1) ?? from, firstAtOrAfter(elapsedS, fromS + dot * dotS))));
  }
  return [...edges, to];
}

function marksOf({ elapsedS, kinds }: BadLines, fromS: number, toS: number, dotS: number): readonly BadLineMark[] {
  const marks: { dot: number; elapsedS: number; count: number; kinds: (BadLineKind | 'reconnected')[] }[] = [];
  for (let at = firstAtOrAfter(elapsedS, fromS); at < elapsedS.length; at += 1) {
    const timeS = elapsedS[at] ?? 0;
    if (timeS > toS) break;
    const kind = BAD_LINE_KINDS[kinds[at] ?? 0] ?? 'reconnected';
    const dot = Math.floor((timeS - fromS) / dotS);
    const open = marks.at(-1);
    if (open === undefined || open.dot !== dot) marks.push({ dot, elapsedS: timeS, count: 1, kinds: [kind] });
    else {
      open.count += 1;
      if (!open.kinds.includes(kind)) open.kinds.push(kind);
    }
  }
  return marks.map(({ dot: _dot, ...mark }) => mark);
}

/**
 * A stretch of a run for so many dots across: of each dot every channel keeps its lowest and its highest value and shows
 * whether one is missing, each at its own time; where there are no more readings than that, all of them. One reading
 * beyond either end is kept, so that lines reach the edge.
 *
 * @param searched - the run [SI]
 * @param fromS - begin of the stretch [s]
 * @param toS - its end, after fromS [s]
 * @param dots - across the drawing, ≥ 1 [-]
 * @returns at most 3 values a dot and channel [SI]
 * @throws RangeError if the stretch has no length or there is no dot
 *
 * Source: no published source; minimum and maximum of each dot, as oscilloscopes draw long records.
 */
export function readingsWindow(searched: SearchedReadings, fromS: number, toS: number, dots: number): ReadingsWindow {
  if (!(toS > fromS)) throw new RangeError(`toS: ${toS}, expected more than fromS, ${fromS}`);
  if (!(dots >= 1)) throw new RangeError(`dots: ${dots}, expected 1 or more`);
  const { readings, blocks, badLines } = searched;
  const { elapsedS } = readings;
  const first = firstAtOrAfter(elapsedS, fromS);
  let behind = firstAtOrAfter(elapsedS, toS);
  while (elapsedS[behind] === toS) behind += 1;
  const from = Math.max(0, first - 1);
  const to = Math.min(elapsedS.length, behind + 1);
  const dotS = (toS - fromS) / dots;
  const isWhole = to - from <= 2 * dots;
  const edges = isWhole ? [] : dotEdges(elapsedS, from, to, fromS, dotS, dots);
  const channels: Partial<Record<ChannelName, WindowChannel>> = {};
  for (const name of CHANNEL_NAMES) {
    const column = readings.channels[name];
    if (column === undefined) continue;
    const rows: number[] = [];
    if (isWhole) for (let row = from; row < to; row += 1) rows.push(row);
    else {
      for (let dot = 0; dot < dots; dot += 1) {
        const { lowest, highest, missing } = extremeRows(column, edges[dot] ?? to, edges[dot + 1] ?? to, blocks[name]);
        const twoInOrder = lowest < highest ? [lowest, highest] : [highest, lowest];
        const inOrder = missing < 0 ? twoInOrder : [lowest, highest, missing].sort((a, b) => a - b);
        for (const row of inOrder) if (row >= 0 && row !== rows.at(-1)) rows.push(row);
      }
    }
    channels[name] = {
      elapsedS: rows.map((row) => elapsedS[row] ?? 0),
      values: rows.map((row) => {
        const value = column.values[row] ?? Number.NaN;
        return Number.isNaN(value) ? null : value;
      }),
    };
  }
  return {
    fromS,
    toS,
    lastS: elapsedS.at(-1) ?? 0,
    rowCount: Math.max(0, behind - first),
    isWhole,
    channels,
    badLines: marksOf(badLines, fromS, toS, dotS),
  };
}
