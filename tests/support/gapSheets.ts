import { type GapDimensions, gapDimensions } from '../../analysis/records/gapDimensions.ts';
import { oilRecord } from '../../analysis/records/oilRecord.ts';
import { type StripSheet, stripSheet } from '../../analysis/records/stripSheet.ts';
import type { SlipState } from '../../analysis/slip/forwardSlip.ts';
import type { GapMap } from '../../analysis/slip/gapMap.ts';
import { gapMapOf } from '../../analysis/slip/gapMapOf.ts';
import { sampleStrip } from './samples.ts';

export const MATERIALS = { body: 'cast iron', gears: 'steel', bushes: 'bronze' } as const;

/** An invented oil of 40 mm²/s and 862 kg/m³ at 40 °C, thicker by a factor. */
export function slipOil(thicker = 1): SlipState['oil'] {
  return oilRecord.parse({
    name: 'Kanalöl (invented)',
    viscosityBasis: 'measured',
    lower: { temperatureK: 313.15, kinematicViscosityM2PerS: 40e-6 * thicker },
    upper: { temperatureK: 373.15, kinematicViscosityM2PerS: 6.4e-6 * thicker },
    viscosityRelativeStandardUncertainty: 0.01,
    densityAt15CKgPerM3: 879,
    densityRelativeStandardUncertainty: 0.001,
  });
}

export function slipState(change: Partial<SlipState> = {}): SlipState {
  return { oil: slipOil(), temperatureK: 313.15, differentialPressurePa: 3e5, speedRevPerS: 15, ...change };
}

/** The feed pump's sheet with parts of it changed, as a person might write it. */
export function feedSheet(change: Readonly<Record<string, unknown>> = {}): StripSheet {
  return stripSheet.parse({ ...sampleStrip('dredger-feed-pump'), ...change });
}

/** The feed pump's sheet for another type of pump. */
export function sheetFor(shape: unknown, change: Readonly<Record<string, unknown>> = {}): StripSheet {
  const parsed: GapDimensions = gapDimensions.parse(shape);
  return feedSheet({ shaftsInBushes: [], ...change, gapDimensions: parsed });
}

export function mapOf(sheet: StripSheet, materials: Parameters<typeof gapMapOf>[1] = MATERIALS): GapMap {
  const map = gapMapOf(sheet, materials);
  if (!map.ok) throw new Error(map.reason.text);
  return map.value;
}

/** A reading of the strip sheet. */
export function reading(value: number, standardUncertainty = 0) {
  return { value, standardUncertainty, instrument: 'invented' };
}
