import { CHANNEL_NAMES, CHANNELS, type ChannelName, isChannelName } from '../../analysis/channels.ts';
import { findUnit, type Quantity, type Unit, unitSymbols } from '../../analysis/units.ts';
import { CsvError } from './csvError.ts';

export type Heading = { readonly text: string; readonly index: number; readonly unit: Unit };
export type ChannelHeading = Heading & { readonly channel: ChannelName };

const HEADING = /^(\w+) ?\[([^\]]+)\]$/;

/**
 * Reads the headings of an import, each a name and a unit in brackets.
 *
 * @param cells - the first row [-]
 * @returns where time and channels stand, at least one channel [-]
 * @throws CsvError naming the heading and what was expected
 */
export function csvHeadings(cells: readonly string[]): {
  readonly elapsed: Heading;
  readonly channels: readonly ChannelHeading[];
} {
  let elapsed: Heading | null = null;
  const channels: ChannelHeading[] = [];
  for (const [index, text] of cells.entries()) {
    const [, name = '', symbol = ''] = HEADING.exec(text) ?? [];
    if (name === 'elapsed') {
      if (elapsed !== null) throw stands(text);
      elapsed = { text, index, unit: unitIn(text, symbol, 'time') };
    } else if (isChannelName(name)) {
      if (channels.some(({ channel }) => channel === name)) throw stands(text);
      channels.push({ text, index, channel: name, unit: unitIn(text, symbol, CHANNELS[name].quantity) });
    } else {
      const known = ['elapsed', ...CHANNEL_NAMES].join(', ');
      throw new CsvError(
        `line 1, heading ${JSON.stringify(text)}: expected a name and its unit in brackets, like 'flow [l/min]'; names are ${known}`,
      );
    }
  }
  if (elapsed === null) throw new CsvError("line 1: expected a heading 'elapsed [s]'");
  if (channels.length === 0) throw new CsvError(`line 1: expected at least one channel of ${CHANNEL_NAMES.join(', ')}`);
  return { elapsed, channels };
}

function unitIn(text: string, symbol: string, quantity: Quantity): Unit {
  const unit = findUnit(symbol, quantity);
  if (unit.ok) return unit.value;
  const known = unitSymbols(quantity).join(', ');
  throw new CsvError(
    `line 1, heading ${JSON.stringify(text)}: ${JSON.stringify(symbol)} is no unit of ${quantity}; known are ${known}`,
  );
}

function stands(text: string): CsvError {
  return new CsvError(`line 1: heading ${JSON.stringify(text)} stands twice`);
}
