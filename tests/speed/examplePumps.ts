import type { PumpGeometry } from '../../analysis/records/pumpRecord.ts';

/** A length measured with a calliper: 0.02 mm either way, rectangular. */
function calliper(mm: number) {
  return { value: mm * 1e-3, standardUncertainty: 0.02e-3 / Math.sqrt(3) };
}

const PRESSURE_ANGLE_RAD = Math.PI / 9;

/** One invented pump of each type, in sizes of textbooks. A type that is missing here does not compile. */
export const EXAMPLE_PUMPS: { readonly [Kind in PumpGeometry['kind']]: Extract<PumpGeometry, { kind: Kind }> } = {
  externalGear: {
    kind: 'externalGear',
    toothCount: { driver: 12, driven: 12 },
    moduleM: 3e-3,
    pressureAngleRad: PRESSURE_ANGLE_RAD,
    tipDiameterM: calliper(42),
    runningCentreDistanceM: calliper(36),
    faceWidthM: calliper(20),
    hasReliefGrooves: true,
    backlashM: calliper(0.12),
    tipClearanceM: calliper(0.04),
    endFloatM: calliper(0.05),
  },
  internalGear: {
    kind: 'internalGear',
    toothCount: { pinion: 13, ring: 19 },
    moduleM: 3e-3,
    pressureAngleRad: PRESSURE_ANGLE_RAD,
    pinionTipDiameterM: calliper(45),
    ringTipDiameterM: calliper(54),
    runningCentreDistanceM: calliper(9),
    faceWidthM: calliper(20),
    hasReliefGrooves: true,
    backlashM: calliper(0.1),
  },
  trochoid: {
    kind: 'trochoid',
    innerToothCount: 6,
    lobeTopCircleDiameterM: calliper(38),
    lobeRadiusM: calliper(8),
    eccentricityM: calliper(2.5),
    widthM: calliper(20),
  },
  lobe: {
    kind: 'lobe',
    lobeCount: 2,
    tipDiameterM: calliper(90),
    centreDistanceM: calliper(60),
    widthM: calliper(50),
  },
  vaneRing: {
    kind: 'vaneRing',
    vaneCount: 9,
    ringDiameterM: calliper(75),
    rotorDiameterM: calliper(58),
    eccentricityM: calliper(8),
    ringWidthM: calliper(50),
    vaneThicknessM: calliper(2),
    underVanesDeliver: false,
  },
  balancedVaneRing: {
    kind: 'balancedVaneRing',
    vaneCount: 12,
    majorDiameterM: calliper(64),
    minorDiameterM: calliper(57),
    rotorDiameterM: calliper(56.5),
    ringWidthM: calliper(24),
    vaneThicknessM: calliper(2),
    vaneLeanRad: (13 * Math.PI) / 180,
    underVanesDeliver: false,
  },
  twinScrew: {
    kind: 'twinScrew',
    startCount: 1,
    outerDiameterM: calliper(100),
    rootDiameterM: calliper(70),
    runningCentreDistanceM: calliper(85),
    leadM: calliper(50),
  },
  threeScrew: {
    kind: 'threeScrew',
    powerDiameterM: calliper(50),
    idlerDiameterM: calliper(30),
    leadM: calliper(100),
  },
  progressingCavity: {
    kind: 'progressingCavity',
    eccentricityM: calliper(4),
    rotorDiameterM: calliper(40),
    statorPitchM: calliper(120),
  },
  plunger: {
    kind: 'plunger',
    pistonCount: 9,
    pistonDiameterM: calliper(20),
    pitchCircleDiameterM: calliper(70),
    swashAngleRad: { value: Math.PI / 10, standardUncertainty: 1e-3 },
  },
  plainThread: {
    kind: 'plainThread',
    startCount: 1,
    boreDiameterM: calliper(40),
    grooveDepthM: calliper(2),
    grooveWidthM: calliper(8),
    leadM: calliper(10),
  },
  asStated: { kind: 'asStated', sweptVolumeM3PerRev: { value: 20e-6, standardUncertainty: 1e-7 }, statedBy: 'plate' },
  turnedByHand: {
    kind: 'turnedByHand',
    repeats: [
      { volumeM3: 2.01e-4, turnsRev: 10 },
      { volumeM3: 1.99e-4, turnsRev: 10 },
      { volumeM3: 2e-4, turnsRev: 10 },
    ],
    volumeStandardUncertaintyM3: 1e-6,
    partialTurnStandardUncertaintyRev: 0.01,
  },
};
