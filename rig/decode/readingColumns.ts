import type { ChannelName } from '../../analysis/channels.ts';
import type { Column, Readings } from '../../analysis/readings.ts';
import type { ChannelValue } from './channelReader.ts';

/** Gathers rows into the columns of {@link Readings}. */
export class ReadingColumns {
  private readonly elapsedS: number[] = [];
  private readonly columns: readonly { channel: ChannelName; values: number[]; quality: number[] }[];

  constructor(channels: readonly ChannelName[]) {
    this.columns = channels.map((channel) => ({ channel, values: [], quality: [] }));
  }

  /**
   * @param elapsedS - not below that of the row before [s]
   * @param valueIn - the row's value of a channel [SI]
   */
  add(elapsedS: number, valueIn: (channel: ChannelName) => ChannelValue): void {
    this.elapsedS.push(elapsedS);
    for (const { channel, values, quality } of this.columns) {
      const of = valueIn(channel);
      values.push(of.value);
      quality.push(of.quality);
    }
  }

  readings(clock: Readings['clock'], clockTie: Readings['clockTie']): Readings {
    const channels: Partial<Record<ChannelName, Column>> = {};
    for (const { channel, values, quality } of this.columns) {
      channels[channel] = { values: Float64Array.from(values), quality: Uint8Array.from(quality) };
    }
    return { elapsedS: Float64Array.from(this.elapsedS), channels, clock, clockTie };
  }
}
