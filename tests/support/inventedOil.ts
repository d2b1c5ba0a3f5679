import { type OilRecord, oilRecord } from '../../analysis/records/oilRecord.ts';

/** An oil of the kind ISO VG 46: the grade's mid-point at 40 °C, invented otherwise. */
export const INVENTED_VG46: OilRecord = oilRecord.parse({
  name: 'invented VG 46',
  viscosityBasis: 'measured',
  lower: { temperatureK: 313.15, kinematicViscosityM2PerS: 46e-6 },
  upper: { temperatureK: 373.15, kinematicViscosityM2PerS: 6.8e-6 },
  viscosityRelativeStandardUncertainty: 0.01,
  densityAt15CKgPerM3: 880,
  densityRelativeStandardUncertainty: 0.002,
});
