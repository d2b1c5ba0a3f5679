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

/** A reading of the strip sheet. */
export function reading(value: number, standardUncertainty = 0) {
  return { value, standardUncertainty, instrument: 'invented' };
}

/** Clearances closer than the sample's, for which the tests work their numbers: 0.05 mm of end float, 0.04 and 0.042 mm at the tips. */
const CLOSE = {
  endFloat: {
    method: 'gasketAndDepths',
    recessDepthM: reading(0.01995, 3e-6),
    gearWidthM: reading(0.02, 2e-6),
    gasketMaterial: 'paper',
    gasketThicknessM: reading(0.00012, 4e-6),
    gasketCrushM: reading(2e-5, 4e-6),
  },
  tipClearances: [
    {
      method: 'diameters',
      part: 'driver',
      boreDiameterM: reading(0.04208, 4e-6),
      tipDiameterM: reading(0.042, 3e-6),
    },
    {
      method: 'diameters',
      part: 'driven',
      boreDiameterM: reading(0.042084, 4e-6),
      tipDiameterM: reading(0.042, 3e-6),
    },
  ],
};

/** The feed pump's sheet, its clearances close, with parts of it changed, as a person might write it. */
export function feedSheet(change: Readonly<Record<string, unknown>> = {}): StripSheet {
  return stripSheet.parse({ ...sampleStrip('dredger-feed-pump'), ...CLOSE, ...change });
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
