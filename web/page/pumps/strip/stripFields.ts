import type { AskedQuantity } from '../../forms/askedQuantity.ts';

/** Measurements that belong together: all of them, or none. */
export type StripSection = {
  readonly key: string;
  readonly head: string;
  readonly asked: readonly AskedQuantity[];
};

function reading(path: string, label: string, usualU: string, above?: number): readonly AskedQuantity[] {
  return [
    {
      name: `${path}.value`,
      label,
      quantity: 'length',
      isOptional: true,
      ...(above === undefined ? { atLeast: 0 } : { above }),
    },
    { name: `${path}.standardUncertainty`, label: `u of ${label}`, quantity: 'length', atLeast: 0, usual: usualU },
  ];
}

function plain(path: string, label: string): AskedQuantity {
  return { name: path, label, quantity: 'length', above: 0, isOptional: true };
}

function count(path: string, label: string): AskedQuantity {
  return { name: path, label, quantity: 'ratio', symbols: { metric: '1', US: '1' }, above: 0, isOptional: true };
}

function angle(path: string, label: string): readonly AskedQuantity[] {
  return [
    { name: `${path}.value`, label, quantity: 'angle', above: 0, isOptional: true },
    { name: `${path}.standardUncertainty`, label: `u of ${label}`, quantity: 'angle', atLeast: 0, usual: '6 °' },
  ];
}

export const PARTS_TEMPERATURE: readonly AskedQuantity[] = [
  {
    name: 'partsTemperatureK.value',
    label: 'temperature of the parts when measured',
    quantity: 'temperature',
    above: 0,
    usual: '20 °C',
  },
];

export const WETTING_FIELDS: readonly AskedQuantity[] = [
  {
    name: 'wetting.doseM3',
    label: 'dose of oil or grease (empty: not measured)',
    quantity: 'volume',
    above: 0,
    isOptional: true,
  },
  { ...count('wetting.turnsByHand', 'turns by hand (empty: not counted)'), above: -1 },
];

export const END_FLOAT_SECTIONS: Readonly<Record<string, StripSection>> = {
  gasketAndDepths: {
    key: 'endFloat',
    head: 'End float, from depths and gasket',
    asked: [
      ...reading('endFloat.recessDepthM', 'depth of the gear chamber', '0.003 mm', 0),
      ...reading('endFloat.gearWidthM', 'width of the gears', '0.002 mm', 0),
      ...reading('endFloat.gasketThicknessM', 'gasket thickness before tightening', '0.004 mm'),
      ...reading('endFloat.gasketCrushM', 'what tightening takes off it', '0.004 mm'),
    ],
  },
  direct: {
    key: 'endFloat',
    head: 'End float, felt directly',
    asked: reading('endFloat.endFloatM', 'end float', '0.01 mm'),
  },
};

export const TIP_PARTS = ['driver', 'driven'] as const;
export type TipPart = (typeof TIP_PARTS)[number];

export function tipSection(part: TipPart, method: string): StripSection {
  return {
    key: `tip.${part}`,
    head: `Tip clearance, ${part}`,
    asked:
      method === 'direct'
        ? reading(`tip.${part}.clearanceM`, `radial clearance, ${part}`, '0.01 mm')
        : [
            ...reading(`tip.${part}.boreDiameterM`, `bore, ${part}`, '0.004 mm', 0),
            ...reading(`tip.${part}.tipDiameterM`, `diameter over the tips, ${part}`, '0.003 mm', 0),
          ],
  };
}

export const BUSHES: readonly { readonly part: TipPart; readonly where: string }[] = [
  { part: 'driver', where: 'driver, coupling end' },
  { part: 'driver', where: 'driver, far end' },
  { part: 'driven', where: 'driven, coupling end' },
  { part: 'driven', where: 'driven, far end' },
];

export function bushSection(index: number): StripSection {
  const where = BUSHES[index]?.where ?? '';
  return {
    key: `bush.${index}`,
    head: where,
    asked: [
      ...reading(`bush.${index}.boreDiameterM`, `bush bore, ${where}`, '0.002 mm', 0),
      ...reading(`bush.${index}.shaftDiameterM`, `shaft diameter, ${where}`, '0.001 mm', 0),
      plain(`bush.${index}.lengthM`, `length, ${where}`),
    ],
  };
}

export const BACKLASH: StripSection = {
  key: 'backlashM',
  head: 'Backlash',
  asked: reading('backlashM', 'backlash at the pitch circle', '0.02 mm'),
};

const BOTH = ['driver', 'driven'] as const;

/** Shape of the gaps, by kind; without it nothing is predicted. */
export const GAP_SECTIONS: Readonly<Record<string, StripSection>> = {
  externalGear: {
    key: 'gapDimensions',
    head: 'external gears',
    asked: [
      ...BOTH.map((part) => count(`gapDimensions.toothCount.${part}`, `teeth, ${part}`)),
      ...BOTH.map((part) => plain(`gapDimensions.tipDiameterM.${part}`, `tip diameter, ${part}`)),
      ...BOTH.map((part) => plain(`gapDimensions.rootDiameterM.${part}`, `root diameter, ${part}`)),
      plain('gapDimensions.faceWidthM', 'face width'),
      ...reading('gapDimensions.tipLandM', 'land of a tooth tip, along the circumference', '0.1 mm', 0),
      ...angle('gapDimensions.sealingArcRad', 'angle of casing that seals'),
    ],
  },
  internalGear: {
    key: 'gapDimensions',
    head: 'internal gear with crescent',
    asked: [
      count('gapDimensions.toothCount.driver', 'teeth, pinion'),
      count('gapDimensions.toothCount.driven', 'teeth, ring'),
      plain('gapDimensions.tipDiameterM.driver', 'tip diameter, pinion'),
      plain('gapDimensions.tipDiameterM.driven', 'bore through the tips of the ring'),
      plain('gapDimensions.rootDiameterM.driver', 'root diameter, pinion'),
      plain('gapDimensions.rootDiameterM.driven', 'root diameter, ring'),
      plain('gapDimensions.ringOuterDiameterM', 'outer diameter, ring'),
      plain('gapDimensions.faceWidthM', 'face width'),
      ...reading('gapDimensions.tipLandM', 'land of a tooth tip', '0.1 mm', 0),
      ...angle('gapDimensions.crescentArcRad.driver', 'arc of the crescent, from the pinion'),
      ...angle('gapDimensions.crescentArcRad.driven', 'arc of the crescent, from the ring'),
      ...reading('gapDimensions.ringSealLengthM', 'way around the ring, delivery to suction', '1 mm', 0),
    ],
  },
  screw: {
    key: 'gapDimensions',
    head: 'screws in a close bore',
    asked: [
      count('gapDimensions.drivenCount', 'driven screws'),
      count('gapDimensions.startCount', 'threads on a screw'),
      ...BOTH.map((part) => plain(`gapDimensions.outerDiameterM.${part}`, `outer diameter, ${part}`)),
      ...BOTH.map((part) => plain(`gapDimensions.rootDiameterM.${part}`, `root diameter, ${part}`)),
      plain('gapDimensions.leadM', 'lead'),
      plain('gapDimensions.threadLengthM', 'length of the thread'),
      ...reading('gapDimensions.landWidthM', 'width of a crest, along the shaft', '0.1 mm', 0),
      ...BOTH.flatMap((part) => angle(`gapDimensions.boreArcRad.${part}`, `arc of a crest in its bore, ${part}`)),
      ...reading('gapDimensions.rootClearanceM', 'crest over the other root', '0.02 mm'),
      ...reading('gapDimensions.flankClearanceM', 'between flanks in mesh', '0.02 mm'),
      ...reading('gapDimensions.flankLengthM', 'way of the oil between two flanks', '0.5 mm', 0),
    ],
  },
  vane: {
    key: 'gapDimensions',
    head: 'vanes',
    asked: [
      count('gapDimensions.vaneCount', 'vanes'),
      plain('gapDimensions.rotorDiameterM', 'rotor diameter'),
      plain('gapDimensions.ringRadiusM.largest', 'largest radius of the ring'),
      plain('gapDimensions.ringRadiusM.smallest', 'smallest radius of the ring'),
      count('gapDimensions.strokesPerTurn', 'pumping strokes in a turn, 1 or 2'),
      plain('gapDimensions.faceWidthM', 'face width'),
      ...reading('gapDimensions.tipLandM', 'land of a vane tip', '0.1 mm', 0),
      ...angle('gapDimensions.sealingArcRad', 'angle of ring that seals'),
      ...reading('gapDimensions.rotorClearanceM', 'rotor to ring where they come closest', '0.01 mm'),
    ],
  },
};

export const LOCKINGS: readonly string[] = [
  'split pin',
  'tab washer',
  'wire',
  'spring washer',
  'lock nut',
  'thread lock',
  'peened',
  'none',
];
