import { type StripSheet, stripSheet } from '../../analysis/records/stripSheet.ts';

function measured(value: number) {
  return { value, standardUncertainty: 5e-6, instrument: 'invented micrometer' };
}

function bush(part: 'driver' | 'driven', where: string) {
  return {
    part,
    where,
    boreDiameterM: measured(0.01806),
    shaftDiameterM: measured(0.018),
    lengthM: 0.02,
    isDrained: true,
  };
}

/** An invented external gear pump with every gap a full map can have: tips, faces, four bushes, relief valve seat. */
export const EXAMPLE_STRIP_SHEET: StripSheet = stripSheet.parse({
  format: 'slipwright.strip/1',
  id: 'speed-sheet',
  version: 1,
  pumpId: 'speed-pump',
  occasion: 'as rebuilt',
  measuredOn: '2026-11-25',
  measuredBy: 'nobody (invented)',
  partsTemperatureK: { value: 293.15, standardUncertainty: 0.5 },
  endFloat: {
    method: 'gasketAndDepths',
    recessDepthM: measured(0.02),
    gearWidthM: measured(0.02),
    gasketMaterial: 'paper',
    gasketThicknessM: measured(0.00008),
    gasketCrushM: measured(0.00002),
  },
  tipClearances: [
    { method: 'diameters', part: 'driver', boreDiameterM: measured(0.04208), tipDiameterM: measured(0.042) },
    { method: 'diameters', part: 'driven', boreDiameterM: measured(0.04208), tipDiameterM: measured(0.042) },
  ],
  shaftsInBushes: [
    bush('driver', 'driver, drive end'),
    bush('driver', 'driver, cover end'),
    bush('driven', 'driven, drive end'),
    bush('driven', 'driven, cover end'),
  ],
  backlashM: measured(0.00012),
  faceFlatness: [],
  reliefSeat: { boreDiameterM: 0.01, widthM: 0.001, gapM: measured(0.000002) },
  nicks: [],
  turning: null,
  witnessMarks: [],
  fasteners: [],
  cleaning: { how: 'washed', isSolventWashed: true, isBlownDry: true },
  wetting: { how: 'oiled', doseM3: null, turnsByHand: null },
  gapDimensions: {
    kind: 'externalGear',
    toothCount: { driver: 12, driven: 12 },
    tipDiameterM: { driver: 0.042, driven: 0.042 },
    rootDiameterM: { driver: 0.0285, driven: 0.0285 },
    faceWidthM: 0.02,
    tipLandM: { value: 0.0018, standardUncertainty: 0.0001 },
    sealingArcRad: { value: 3.5, standardUncertainty: 0.05 },
  },
});
