import type { OilRecord } from '../../../analysis/records/oilRecord.ts';
import type { SetUp } from '../../../analysis/records/runRecord.ts';
import type { StartDefaults } from '../../api.ts';
import type { AskedQuantity } from '../forms/askedQuantity.ts';
import { leafAt } from '../forms/nested.ts';

const METRES = { metric: 'm', US: 'ft' } as const;
const BAROMETER = { metric: 'mbar(a)', US: 'inHg(a)' } as const;

/** Numbers of the start form; their names are paths of what the form begins with. */
export const SET_UP_FIELDS: readonly AskedQuantity[] = [
  {
    name: 'setUp.barometerPa.value',
    label: 'barometer',
    quantity: 'pressure',
    isDifference: true,
    symbols: BAROMETER,
    atLeast: 5e4,
    atMost: 1.2e5,
  },
  {
    name: 'setUp.barometerPa.standardUncertainty',
    label: 'u of the barometer',
    quantity: 'pressure',
    isDifference: true,
    symbols: BAROMETER,
    atLeast: 0,
  },
  {
    name: 'setUp.staticLiftM.value',
    label: 'static lift, oil surface to highest point',
    quantity: 'length',
    symbols: METRES,
    atLeast: 0,
    atMost: 10.3,
  },
  {
    name: 'setUp.staticLiftM.standardUncertainty',
    label: 'u of the static lift',
    quantity: 'length',
    symbols: METRES,
    atLeast: 0,
  },
  { name: 'setUp.suctionPipeBoreM', label: 'suction pipe, bore', quantity: 'length', above: 0 },
  { name: 'setUp.suctionPipeLengthM', label: 'suction pipe, length', quantity: 'length', symbols: METRES, above: 0 },
  { name: 'setUp.deadVolumeM3', label: 'gas volume, pipe end to gears', quantity: 'volume', atLeast: 0 },
  {
    name: 'setUp.deliveryLineVolumeM3.value',
    label: 'volume, pump outlet to flow meter',
    quantity: 'volume',
    atLeast: 0,
  },
  {
    name: 'setUp.deliveryLineVolumeM3.standardUncertainty',
    label: 'u of that volume',
    quantity: 'volume',
    atLeast: 0,
  },
];

export const OIL_FIELDS: readonly AskedQuantity[] = [
  { name: 'oil.lower.temperatureK', label: 'viscosity, lower temperature', quantity: 'temperature', above: 0 },
  {
    name: 'oil.lower.kinematicViscosityM2PerS',
    label: 'viscosity there',
    quantity: 'kinematicViscosity',
    atLeast: 0.21e-6,
  },
  { name: 'oil.upper.temperatureK', label: 'viscosity, higher temperature', quantity: 'temperature', above: 0 },
  {
    name: 'oil.upper.kinematicViscosityM2PerS',
    label: 'viscosity at that',
    quantity: 'kinematicViscosity',
    atLeast: 0.21e-6,
  },
  { name: 'oil.viscosityRelativeStandardUncertainty', label: 'u of the viscosity', quantity: 'ratio', atLeast: 0 },
  {
    name: 'oil.densityAt15CKgPerM3',
    label: 'density at 15 °C',
    quantity: 'density',
    atLeast: 700,
    atMost: 1200,
  },
  { name: 'oil.densityRelativeStandardUncertainty', label: 'u of the density', quantity: 'ratio', atLeast: 0 },
];

type Values = Readonly<Record<string, number>>;

/** What stands in a field before anybody types: the last run's own. */
export function startBefore(defaults: StartDefaults): (name: string) => number | string | null {
  return (name) => {
    const leaf = leafAt(defaults, name);
    return typeof leaf === 'number' || typeof leaf === 'string' ? leaf : null;
  };
}

/** What the form does not ask stands as in the run before; what belongs to one start alone is unsaid. */
export function setUpFrom(values: Values, wetness: SetUp['wetness'], before: SetUp): SetUp {
  const si = (name: string): number => values[`setUp.${name}`] ?? Number.NaN;
  const measured = (name: string) => ({
    value: si(`${name}.value`),
    standardUncertainty: si(`${name}.standardUncertainty`),
  });
  return {
    ...before,
    suctionPipe: null,
    wetting: null,
    riserHeightM: null,
    endsWithPipeHold: false,
    barometerPa: measured('barometerPa'),
    staticLiftM: measured('staticLiftM'),
    suctionPipeBoreM: si('suctionPipeBoreM'),
    suctionPipeLengthM: si('suctionPipeLengthM'),
    deadVolumeM3: si('deadVolumeM3'),
    deliveryLineVolumeM3: measured('deliveryLineVolumeM3'),
    wetness,
  };
}

export function oilFrom(values: Values, name: string, viscosityBasis: OilRecord['viscosityBasis']): OilRecord {
  const si = (path: string): number => values[`oil.${path}`] ?? Number.NaN;
  const point = (end: string) => ({
    temperatureK: si(`${end}.temperatureK`),
    kinematicViscosityM2PerS: si(`${end}.kinematicViscosityM2PerS`),
  });
  return {
    name,
    viscosityBasis,
    lower: point('lower'),
    upper: point('upper'),
    viscosityRelativeStandardUncertainty: si('viscosityRelativeStandardUncertainty'),
    densityAt15CKgPerM3: si('densityAt15CKgPerM3'),
    densityRelativeStandardUncertainty: si('densityRelativeStandardUncertainty'),
  };
}
