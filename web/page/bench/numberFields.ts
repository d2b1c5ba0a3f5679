import type { OilRecord } from '../../../analysis/records/oilRecord.ts';
import type { SetUp } from '../../../analysis/records/runRecord.ts';
import { differenceFrom, readingFrom, siDifferenceFrom, siFrom, unitOf } from '../../../analysis/units.ts';
import type { StartDefaults } from '../../api.ts';

/** A number of the start form: how it is called, in which unit it is typed, where it comes from. */
export type NumberField = {
  readonly name: string;
  readonly label: string;
  readonly unitSymbol: string;
  /** Uncertainties are differences: no zero point takes part. */
  readonly isDifference: boolean;
  readonly si: (defaults: StartDefaults) => number;
};

function field(name: string, label: string, unitSymbol: string, si: NumberField['si']): NumberField {
  return { name, label, unitSymbol, isDifference: false, si };
}

function uncertaintyField(name: string, label: string, unitSymbol: string, si: NumberField['si']): NumberField {
  return { name, label, unitSymbol, isDifference: true, si };
}

export const SET_UP_FIELDS: readonly NumberField[] = [
  field('barometer', 'barometer', 'mbar(a)', ({ setUp }) => setUp.barometerPa.value),
  uncertaintyField(
    'barometerU',
    'its standard uncertainty',
    'mbar(a)',
    ({ setUp }) => setUp.barometerPa.standardUncertainty,
  ),
  field('lift', 'static lift, oil surface to highest point', 'm', ({ setUp }) => setUp.staticLiftM.value),
  uncertaintyField('liftU', 'its standard uncertainty', 'm', ({ setUp }) => setUp.staticLiftM.standardUncertainty),
  field('bore', 'suction pipe, bore', 'mm', ({ setUp }) => setUp.suctionPipeBoreM),
  field('length', 'suction pipe, length', 'm', ({ setUp }) => setUp.suctionPipeLengthM),
  field('deadVolume', 'gas volume, pipe end to gears', 'cm3', ({ setUp }) => setUp.deadVolumeM3),
  field('lineVolume', 'volume, pump outlet to flow meter', 'cm3', ({ setUp }) => setUp.deliveryLineVolumeM3.value),
  uncertaintyField(
    'lineVolumeU',
    'its standard uncertainty',
    'cm3',
    ({ setUp }) => setUp.deliveryLineVolumeM3.standardUncertainty,
  ),
];

export const OIL_FIELDS: readonly NumberField[] = [
  field('lowerT', 'viscosity, lower temperature', 'degC', ({ oil }) => oil.lower.temperatureK),
  field('lowerNu', 'viscosity there', 'mm2/s', ({ oil }) => oil.lower.kinematicViscosityM2PerS),
  field('upperT', 'viscosity, higher temperature', 'degC', ({ oil }) => oil.upper.temperatureK),
  field('upperNu', 'viscosity there', 'mm2/s', ({ oil }) => oil.upper.kinematicViscosityM2PerS),
  field('nuU', 'standard uncertainty of the viscosity', '%', ({ oil }) => oil.viscosityRelativeStandardUncertainty),
  field('density', 'density at 15 °C', 'kg/m3', ({ oil }) => oil.densityAt15CKgPerM3),
  field('densityU', 'standard uncertainty of the density', '%', ({ oil }) => oil.densityRelativeStandardUncertainty),
];

/** No gauge unit is typed here: the barometer is itself a field. */
const NO_BAROMETER_PA = 0;

/** What stands in the field at first: the default in its unit, without the tail of binary fractions. */
export function typedDefault(of: NumberField, defaults: StartDefaults): string {
  const unit = unitOf(of.unitSymbol);
  const si = of.si(defaults);
  const typed = of.isDifference ? differenceFrom(si, unit) : readingFrom(si, unit, NO_BAROMETER_PA);
  return String(Number(typed.toPrecision(9)));
}

/** SI values of typed fields, by name. */
function typedValues(fields: readonly NumberField[], form: FormData): (name: string) => number {
  const values = new Map(
    fields.map((of) => {
      const typed = Number(form.get(of.name));
      const unit = unitOf(of.unitSymbol);
      return [of.name, of.isDifference ? siDifferenceFrom(typed, unit) : siFrom(typed, unit, NO_BAROMETER_PA)];
    }),
  );
  return (name) => values.get(name) ?? Number.NaN;
}

/** What the form does not ask stands as in the run before; what belongs to one start alone is unsaid. */
export function setUpFrom(form: FormData, wetness: SetUp['wetness'], before: SetUp): SetUp {
  const si = typedValues(SET_UP_FIELDS, form);
  return {
    ...before,
    suctionPipe: null,
    wetting: null,
    riserHeightM: null,
    barometerPa: { value: si('barometer'), standardUncertainty: si('barometerU') },
    staticLiftM: { value: si('lift'), standardUncertainty: si('liftU') },
    suctionPipeBoreM: si('bore'),
    suctionPipeLengthM: si('length'),
    deadVolumeM3: si('deadVolume'),
    deliveryLineVolumeM3: { value: si('lineVolume'), standardUncertainty: si('lineVolumeU') },
    wetness,
  };
}

export function oilFrom(form: FormData, name: string, viscosityBasis: OilRecord['viscosityBasis']): OilRecord {
  const si = typedValues(OIL_FIELDS, form);
  return {
    name,
    viscosityBasis,
    lower: { temperatureK: si('lowerT'), kinematicViscosityM2PerS: si('lowerNu') },
    upper: { temperatureK: si('upperT'), kinematicViscosityM2PerS: si('upperNu') },
    viscosityRelativeStandardUncertainty: si('nuU'),
    densityAt15CKgPerM3: si('density'),
    densityRelativeStandardUncertainty: si('densityU'),
  };
}
