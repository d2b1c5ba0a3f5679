import type { ChannelName } from '../../analysis/channels.ts';
import type { Column, Readings } from '../../analysis/readings.ts';
import type { ChannelValue } from './channelReader.ts';
import { GrowingBytes, GrowingDoubles } from './growing.ts';

/** Gathers rows into the columns of {@link Readings}. */
export class ReadingColumns {
  private readonly elapsedS = new GrowingDoubles();
  private readonly columns: readonly { channel: ChannelName; values: GrowingDoubles; quality: GrowingBytes }[];

  constructor(channels: readonly ChannelName[]) {
    this.columns = channels.map((channel) => ({
      channel,
      values: new GrowingDoubles(),
      quality: new GrowingBytes(),
    }));
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
      channels[channel] = { values: values.taken(), quality: quality.taken() };
    }
    return { elapsedS: this.elapsedS.taken(), channels, clock, clockTie };
  }
}
