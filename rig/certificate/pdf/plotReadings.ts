import type { DecimatedReadings } from '../../../analysis/decimate.ts';

/** Readings to be drawn, by run id. */
export type PlotReadings = Readonly<Record<string, DecimatedReadings>>;
