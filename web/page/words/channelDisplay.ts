import { CHANNELS, type ChannelName } from '../../../analysis/channels.ts';
import { printedUnit, printFixed } from '../../../analysis/formatStated.ts';
import { readingFrom, type Unit, unitOf } from '../../../analysis/units.ts';
import { unitSystem } from './unitSystem.ts';

/** How a channel is shown: its short name, its unit and as many decimals as a live reading is worth. */
type ChannelDisplay = {
  readonly name: string;
  readonly unitSymbol: string;
  readonly decimals: number;
  /** Least height of a plot's scale, in the unit: noise is not blown up to fill it. */
  readonly leastSpan: number;
};

type InUnit = Omit<ChannelDisplay, 'name'>;

function inUnit(unitSymbol: string, decimals: number, leastSpan: number): InUnit {
  return { unitSymbol, decimals, leastSpan };
}

/** A channel that is shown in the unit that the person has chosen; read within a drawing, it follows the choice. */
function shown(name: string, metric: InUnit, us: InUnit = metric): ChannelDisplay {
  const chosen = (): InUnit => (unitSystem.value === 'US' ? us : metric);
  return {
    name,
    get unitSymbol() {
      return chosen().unitSymbol;
    },
    get decimals() {
      return chosen().decimals;
    },
    get leastSpan() {
      return chosen().leastSpan;
    },
  };
}

const CELSIUS = inUnit('degC', 1, 2);
const FAHRENHEIT = inUnit('degF', 1, 4);
const DELIVERY = [inUnit('bar(g)', 2, 0.5), inUnit('psi(g)', 1, 8)] as const;

export const CHANNEL_DISPLAY: Readonly<Record<ChannelName, ChannelDisplay>> = {
  suctionPressure: shown('suction', inUnit('bar(a)', 3, 0.1), inUnit('psi(a)', 2, 1.5)),
  deliveryPressure: shown('delivery', ...DELIVERY),
  flow: shown('flow', inUnit('l/min', 2, 1), inUnit('US gal/min', 3, 0.25)),
  speed: shown('speed', inUnit('r/min', 0, 40)),
  oilTemperature: shown('oil at the inlet', CELSIUS, FAHRENHEIT),
  caseTemperature: shown('case', CELSIUS, FAHRENHEIT),
  torque: shown('torque', inUnit('N m', 2, 1), inUnit('in lbf', 1, 9)),
  motorPower: shown('motor power', inUnit('kW', 3, 0.1), inUnit('hp', 3, 0.1)),
  meterTemperature: shown('oil at the meter', CELSIUS, FAHRENHEIT),
  meterPressure: shown('at the meter', ...DELIVERY),
  externalDrain: shown('drain', inUnit('l/min', 3, 0.1), inUnit('US gal/min', 4, 0.03)),
  ambientTemperature: shown('ambient', CELSIUS, FAHRENHEIT),
  barometer: shown('barometer', inUnit('mbar(a)', 1, 5), inUnit('inHg(a)', 2, 0.15)),
  tankLevel: shown('tank level', inUnit('mm', 0, 20), inUnit('in', 1, 1)),
};

/** The order in which a fitter looks at them. */
export const CHANNEL_ORDER: readonly ChannelName[] = [
  'speed',
  'deliveryPressure',
  'flow',
  'suctionPressure',
  'oilTemperature',
  'caseTemperature',
  'torque',
  'motorPower',
  'externalDrain',
  'meterTemperature',
  'meterPressure',
  'ambientTemperature',
  'barometer',
  'tankLevel',
];

/** The unit in which a channel is shown. */
export function channelUnit(channel: ChannelName): Unit {
  return unitOf(CHANNEL_DISPLAY[channel].unitSymbol);
}

/** The same in words: 'l/min'. */
export function unitWords(channel: ChannelName): string {
  return printedUnit(CHANNEL_DISPLAY[channel].unitSymbol);
}

/** Full name of a channel, for tables and for those who hear the page. */
export function channelLabel(channel: ChannelName): string {
  return CHANNELS[channel].label;
}

/** A channel's SI value in the unit it is shown in. */
export function shownValue(channel: ChannelName, si: number, barometerPa: number): number {
  return readingFrom(si, channelUnit(channel), barometerPa);
}

/** The same with the channel's decimals, a dash where it is missing. */
export function shownText(channel: ChannelName, si: number | null, barometerPa: number): string {
  return si === null ? '–' : printFixed(shownValue(channel, si, barometerPa), CHANNEL_DISPLAY[channel].decimals);
}
