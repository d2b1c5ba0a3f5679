import { type HoldColumns, mapHoldChannels } from './holdSearch.ts';

/** A part of the readings that is not yet a whole block. */
export type BegunBlock = { readonly first: number; readonly elapsedS: Float64Array; readonly columns: HoldColumns };

function joined(before: Float64Array, after: Float64Array): Float64Array {
  const both = new Float64Array(before.length + after.length);
  both.set(before);
  both.set(after, before.length);
  return both;
}

function joinedQuality(before: Uint8Array, after: Uint8Array): Uint8Array {
  const both = new Uint8Array(before.length + after.length);
  both.set(before);
  both.set(after, before.length);
  return both;
}

/** A part of the columns that does not change with them. */
export function copyOfColumns(columns: HoldColumns, from: number, to: number): HoldColumns {
  return mapHoldChannels((channel) => ({
    values: columns[channel].values.slice(from, to),
    quality: columns[channel].quality.slice(from, to),
  }));
}

/** The block begun with the readings up to `to` behind it. */
export function continuedBlock(
  begun: BegunBlock,
  elapsedS: Float64Array,
  columns: HoldColumns,
  to: number,
): BegunBlock {
  const more = copyOfColumns(columns, 0, to);
  return {
    first: begun.first,
    elapsedS: joined(begun.elapsedS, elapsedS.subarray(0, to)),
    columns: mapHoldChannels((channel) => ({
      values: joined(begun.columns[channel].values, more[channel].values),
      quality: joinedQuality(begun.columns[channel].quality, more[channel].quality),
    })),
  };
}
