import type { ChannelName } from '../../../analysis/channels.ts';

/**
 * Series colours: five hues of Okabe and Ito (2008), 'Color Universal Design', told apart by colour-blind eyes. Their
 * values stand in style/paper.css; on dark paper their sky blue takes the place of their blue. Each series has a line
 * style and a marker of its own besides.
 */
const OKABE_ITO = {
  blue: '--series-blue',
  vermillion: '--series-vermillion',
  bluishGreen: '--series-bluish-green',
  reddishPurple: '--series-reddish-purple',
  orange: '--series-orange',
} as const;

export type MarkerShape = 'circle' | 'square' | 'triangle' | 'diamond' | 'cross';

export type SeriesStyle = {
  /** As the style sheet takes it. */
  readonly color: string;
  readonly dash: readonly number[];
  readonly marker: MarkerShape;
};

const STYLES: readonly SeriesStyle[] = [
  { color: `var(${OKABE_ITO.blue})`, dash: [], marker: 'circle' },
  { color: `var(${OKABE_ITO.vermillion})`, dash: [8, 3], marker: 'square' },
  { color: `var(${OKABE_ITO.bluishGreen})`, dash: [2, 3], marker: 'triangle' },
  { color: `var(${OKABE_ITO.reddishPurple})`, dash: [10, 3, 2, 3], marker: 'diamond' },
  { color: `var(${OKABE_ITO.orange})`, dash: [5, 5], marker: 'cross' },
];

const FIRST_STYLE: SeriesStyle = { color: `var(${OKABE_ITO.blue})`, dash: [], marker: 'circle' };

/** Style of the n-th series of a plot, counted from 0; from the sixth on they come round again. */
export function seriesStyle(index: number): SeriesStyle {
  return STYLES[index % STYLES.length] ?? FIRST_STYLE;
}

/** Custom property that holds a channel's colour; it has the same wherever it is drawn over time; each has a band of its own there, so lines are whole. */
export const CHANNEL_COLOR_PROPERTY: Readonly<Record<ChannelName, string>> = {
  speed: OKABE_ITO.bluishGreen,
  deliveryPressure: OKABE_ITO.vermillion,
  flow: OKABE_ITO.blue,
  suctionPressure: OKABE_ITO.reddishPurple,
  oilTemperature: OKABE_ITO.orange,
  caseTemperature: OKABE_ITO.orange,
  torque: OKABE_ITO.bluishGreen,
  motorPower: OKABE_ITO.bluishGreen,
  externalDrain: OKABE_ITO.blue,
  meterTemperature: OKABE_ITO.orange,
  meterPressure: OKABE_ITO.vermillion,
  ambientTemperature: OKABE_ITO.orange,
  barometer: OKABE_ITO.reddishPurple,
  tankLevel: OKABE_ITO.blue,
};
