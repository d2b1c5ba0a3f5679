import type { PumpGeometry } from '../../../../analysis/records/pumpRecord.ts';
import type { AskedQuantity } from '../../forms/askedQuantity.ts';

type Kind = PumpGeometry['kind'];

/** What a form asks of a pump's geometry. */
export type GeometryForm = {
  readonly words: string;
  /** As the record calls the type of pump. */
  readonly type: string;
  readonly asked: readonly AskedQuantity[];
  /** Yes or no. */
  readonly ticks: readonly { readonly name: string; readonly label: string; readonly usual: boolean }[];
  /** Words, such as who stated a volume. */
  readonly texts: readonly { readonly name: string; readonly label: string }[];
};

const at = (key: string): string => `geometry.${key}`;

function measured(key: string, label: string, usualU = '0.01 mm', mayBeZero = false): readonly AskedQuantity[] {
  const limit = mayBeZero ? { atLeast: 0 } : { above: 0 };
  return [
    { name: at(`${key}.value`), label, quantity: 'length', ...limit },
    {
      name: at(`${key}.standardUncertainty`),
      label: `u of ${label}`,
      quantity: 'length',
      atLeast: 0,
      usual: usualU,
    },
  ];
}

function plain(key: string, label: string): AskedQuantity {
  return { name: at(key), label, quantity: 'length', above: 0 };
}

function angle(key: string, label: string, usual: string): AskedQuantity {
  return { name: at(key), label, quantity: 'angle', atLeast: 0, usual };
}

function count(key: string, label: string): AskedQuantity {
  return { name: at(key), label, quantity: 'ratio', symbols: { metric: '1', US: '1' }, above: 0 };
}

const NONE = { ticks: [], texts: [] };
const GROOVES = { name: at('hasReliefGrooves'), label: 'relief grooves in the end faces', usual: true };
const UNDER_VANES = {
  name: at('underVanesDeliver'),
  label: 'the spaces under the vanes draw and deliver',
  usual: true,
};

/** Every kind of geometry that a record may hold, in the order in which they are offered. */
const GEOMETRY_FORMS: Readonly<Record<Kind, GeometryForm>> = {
  externalGear: {
    words: 'external gears',
    type: 'external gear',
    asked: [
      count('toothCount.driver', 'teeth, driver'),
      count('toothCount.driven', 'teeth, driven'),
      plain('moduleM', 'module (pitch diameter over teeth)'),
      angle('pressureAngleRad', 'pressure angle', '20 °'),
      ...measured('tipDiameterM', 'tip diameter'),
      ...measured('runningCentreDistanceM', 'running centre distance'),
      ...measured('faceWidthM', 'face width'),
      ...measured('backlashM', 'backlash', '0.02 mm', true),
      ...measured('tipClearanceM', 'tip clearance, radial', '0.01 mm', true),
      ...measured('endFloatM', 'end float', '0.01 mm', true),
    ],
    ticks: [GROOVES],
    texts: [],
  },
  internalGear: {
    words: 'internal gear with crescent',
    type: 'internal gear',
    asked: [
      count('toothCount.pinion', 'teeth, pinion'),
      count('toothCount.ring', 'teeth, ring'),
      plain('moduleM', 'module (pitch diameter over teeth)'),
      angle('pressureAngleRad', 'pressure angle', '20 °'),
      ...measured('pinionTipDiameterM', 'tip diameter, pinion'),
      ...measured('ringTipDiameterM', 'bore through the tips of the ring'),
      ...measured('runningCentreDistanceM', 'running centre distance'),
      ...measured('faceWidthM', 'face width'),
      ...measured('backlashM', 'backlash', '0.02 mm', true),
    ],
    ticks: [GROOVES],
    texts: [],
  },
  trochoid: {
    ...NONE,
    words: 'trochoid rotor set',
    type: 'trochoid rotor set',
    asked: [
      count('innerToothCount', 'teeth of the inner rotor'),
      ...measured('lobeTopCircleDiameterM', 'circle through the tops of the outer lobes'),
      ...measured('lobeRadiusM', 'radius of a lobe'),
      ...measured('eccentricityM', 'eccentricity'),
      ...measured('widthM', 'width'),
    ],
  },
  lobe: {
    ...NONE,
    words: 'lobe rotors',
    type: 'lobe',
    asked: [
      count('lobeCount', 'lobes of a rotor'),
      ...measured('tipDiameterM', 'tip diameter'),
      ...measured('centreDistanceM', 'centre distance'),
      ...measured('widthM', 'width'),
    ],
  },
  vaneRing: {
    words: 'vanes in a round ring',
    type: 'single vane ring',
    asked: [
      count('vaneCount', 'vanes'),
      ...measured('ringDiameterM', 'ring diameter'),
      ...measured('rotorDiameterM', 'rotor diameter'),
      ...measured('eccentricityM', 'eccentricity'),
      ...measured('ringWidthM', 'ring width'),
      ...measured('vaneThicknessM', 'vane thickness'),
    ],
    ticks: [UNDER_VANES],
    texts: [],
  },
  balancedVaneRing: {
    words: 'vanes in a cam ring, two strokes a turn',
    type: 'balanced vane ring',
    asked: [
      count('vaneCount', 'vanes'),
      ...measured('majorDiameterM', 'across the two wide arcs'),
      ...measured('minorDiameterM', 'across the two narrow arcs'),
      ...measured('rotorDiameterM', 'rotor diameter'),
      ...measured('ringWidthM', 'ring width'),
      ...measured('vaneThicknessM', 'vane thickness'),
      angle('vaneLeanRad', 'lean of the slots from the radius', '0 °'),
    ],
    ticks: [UNDER_VANES],
    texts: [],
  },
  twinScrew: {
    ...NONE,
    words: 'two screws',
    type: 'twin screw',
    asked: [
      count('startCount', 'threads of one screw'),
      ...measured('outerDiameterM', 'outer diameter'),
      ...measured('rootDiameterM', 'root diameter'),
      ...measured('runningCentreDistanceM', 'running centre distance'),
      ...measured('leadM', 'lead (threads × pitch)'),
    ],
  },
  threeScrew: {
    ...NONE,
    words: 'three screws',
    type: 'three screw',
    asked: [
      ...measured('powerDiameterM', 'diameter of the power screw'),
      ...measured('idlerDiameterM', 'diameter of an idler'),
      ...measured('leadM', 'lead (threads × pitch)'),
    ],
  },
  progressingCavity: {
    ...NONE,
    words: 'progressing cavity',
    type: 'progressing cavity',
    asked: [
      ...measured('eccentricityM', 'eccentricity'),
      ...measured('rotorDiameterM', 'diameter of the rotor section'),
      ...measured('statorPitchM', 'pitch of the stator, a full turn'),
    ],
  },
  plunger: {
    ...NONE,
    words: 'plungers on a swash plate',
    type: 'plunger',
    asked: [
      count('pistonCount', 'plungers'),
      ...measured('pistonDiameterM', 'plunger diameter'),
      ...measured('pitchCircleDiameterM', 'pitch circle diameter'),
      { name: at('swashAngleRad.value'), label: 'angle of the swash plate', quantity: 'angle', above: 0 },
      {
        name: at('swashAngleRad.standardUncertainty'),
        label: 'u of the angle of the swash plate',
        quantity: 'angle',
        atLeast: 0,
        usual: '0.1 °',
      },
    ],
  },
  plainThread: {
    ...NONE,
    words: 'plain thread in a bore',
    type: 'plain thread',
    asked: [
      count('startCount', 'threads'),
      ...measured('boreDiameterM', 'bore diameter'),
      ...measured('grooveDepthM', 'depth of the groove'),
      ...measured('grooveWidthM', 'width of a groove along the axis'),
      ...measured('leadM', 'lead (threads × pitch)'),
    ],
  },
  turnedByHand: {
    ...NONE,
    words: 'not measured: turned by hand into a vessel',
    type: 'external gear',
    asked: [
      ...[0, 1, 2].flatMap((index): readonly AskedQuantity[] => [
        {
          name: at(`repeats.${index}.volumeM3`),
          label: `caught, time ${index + 1}`,
          quantity: 'volume',
          above: 0,
        },
        count(`repeats.${index}.turnsRev`, `turns of the shaft, time ${index + 1}`),
      ]),
      {
        name: at('volumeStandardUncertaintyM3'),
        label: 'u of the vessel',
        quantity: 'volume',
        atLeast: 0,
        usual: '1 cm³',
      },
      {
        ...count('partialTurnStandardUncertaintyRev', 'u of the last part of a turn'),
        usual: '0.02',
      },
    ],
  },
  asStated: {
    ...NONE,
    words: 'not measured: swept volume from papers or a plate',
    type: 'external gear',
    asked: [
      { name: at('sweptVolumeM3PerRev.value'), label: 'swept volume', quantity: 'sweptVolume', above: 0 },
      {
        name: at('sweptVolumeM3PerRev.standardUncertainty'),
        label: 'u of the swept volume',
        quantity: 'sweptVolume',
        atLeast: 0,
      },
    ],
    texts: [{ name: at('statedBy'), label: 'stated by' }],
  },
};

export const GEOMETRY_KINDS: readonly (readonly [kind: string, words: string])[] = Object.entries(GEOMETRY_FORMS).map(
  ([kind, { words }]) => [kind, words],
);

/** The form for a kind, by its name. */
export function geometryFormOf(kind: string): GeometryForm {
  return Object.entries(GEOMETRY_FORMS).find(([name]) => name === kind)?.[1] ?? GEOMETRY_FORMS.externalGear;
}
