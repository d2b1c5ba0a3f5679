import { describe, expect, it } from 'vitest';
import { oilState } from '../../../analysis/oil/oilState.ts';
import { type ForwardSlip, forwardSlip } from '../../../analysis/slip/forwardSlip.ts';
import { type GapMap, withChange } from '../../../analysis/slip/gapMap.ts';
import { gapMapOf } from '../../../analysis/slip/gapMapOf.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { feedSheet, MATERIALS, mapOf, reading, sheetFor, slipState } from '../../support/gapSheets.ts';

/** At the temperature of the measurement: no expansion takes part. */
const COLD = slipState({ temperatureK: 293.15 });
const PER_CONDUCTANCE = COLD.differentialPressurePa / oilState(COLD.oil, COLD.temperatureK).dynamicViscosityPaS;

function forward(map: GapMap, state = COLD): ForwardSlip {
  const slip = forwardSlip(map, state);
  if (!slip.ok) throw new Error(slip.reason.text);
  return slip.value;
}

/** Conductance of a gap, by its label [m³]. */
function conductance(slip: ForwardSlip, place: string, label: string): number {
  const gap = slip.gaps.find((entry) => entry.place === place && entry.label === label);
  return (gap?.slipM3PerS ?? Number.NaN) / PER_CONDUCTANCE;
}

const tip = (part: string, valueM: number) => ({ method: 'direct', part, clearanceM: reading(valueM) });
const bush = (part: string, where: string, shaftM: number, clearanceM: number, isDrained = true) => ({
  part,
  where,
  boreDiameterM: reading(shaftM + clearanceM),
  shaftDiameterM: reading(shaftM),
  lengthM: 0.02,
  isDrained,
});
const even = (value: number) => ({ value, standardUncertainty: 0 });

const internalGear = {
  kind: 'internalGear',
  toothCount: { driver: 13, driven: 19 },
  tipDiameterM: { driver: 0.045, driven: 0.051 },
  rootDiameterM: { driver: 0.0315, driven: 0.0645 },
  ringOuterDiameterM: 0.08,
  faceWidthM: 0.02,
  tipLandM: even(0.002),
  crescentArcRad: { driver: even(2), driven: even(1.6) },
  ringSealLengthM: even(0.05),
};
const twinScrew = {
  kind: 'screw',
  drivenCount: 1,
  startCount: 2,
  outerDiameterM: { driver: 0.045, driven: 0.045 },
  rootDiameterM: { driver: 0.03, driven: 0.03 },
  leadM: 0.05,
  threadLengthM: 0.1,
  landWidthM: even(0.0125),
  boreArcRad: { driver: even(5), driven: even(5) },
  rootClearanceM: even(50e-6),
  flankClearanceM: even(100e-6),
  flankLengthM: even(0.006),
};
const vane = {
  kind: 'vane',
  vaneCount: 12,
  rotorDiameterM: 0.06,
  ringRadiusM: { largest: 0.036, smallest: 0.03003 },
  strokesPerTurn: 1,
  faceWidthM: 0.03,
  tipLandM: even(0.001),
  sealingArcRad: even(1),
  rotorClearanceM: even(30e-6),
};

describe('the gap map of an external gear pump', () => {
  it('leads oil along the shafts of drained bushes, and none along blind ones', () => {
    const slip = forward(mapOf(feedSheet()));
    const shafts = slip.gaps.filter(({ place }) => place === 'along the shafts');
    expect(shafts.map(({ label }) => label)).toEqual(['driver, coupling end']);
    // By hand [mm]: face at 0.0375: K = π 0.0375³/(6 ln(28.5/16)) = 4.78291e-5; bush c 0.016: B = π 16 0.016³ (1 + 1.5/4)/(12 22)
    // = 1.07232e-6; along the shaft B (K/2)/(K + B).
    const [k, b] = [4.78291e-5, 1.07232e-6];
    expectRelative(conductance(slip, 'along the shafts', 'driver, coupling end'), ((b * k) / 2 / (k + b)) * 1e-9, 1e-4);
  });

  it('adds the seat of a built-in relief valve', () => {
    // By hand [mm]: discs from 5 to 6, h 0.01: π 1e-6/(6 ln 1.2).
    const seat = { boreDiameterM: 0.01, widthM: 0.001, gapM: reading(10e-6) };
    const slip = forward(mapOf(feedSheet({ reliefSeat: seat })));
    const expected = ((Math.PI * 1e-6) / (6 * Math.log(1.2))) * 1e-9;
    expectRelative(conductance(slip, 'over the relief valve seat', 'shut valve'), expected, 1e-9);
    expect(slip.inWords).toContain('over the relief valve seat');
  });
});

describe('the gap map of an internal gear pump', () => {
  const sheet = sheetFor(internalGear, {
    tipClearances: [tip('driver', 50e-6), tip('driven', 60e-6)],
    shaftsInBushes: [bush('driven', 'ring in the body', 0.08, 100e-6)],
  });

  it('is worked by hand: tips along the crescent, faces, and two ways round the ring', () => {
    // By hand [mm]: pinion 13 · 2/2π = 4.13803 tips of 2 by 20 wide; ring 19 · 1.6/2π = 4.83831.
    const slip = forward(mapOf(sheet));
    expectRelative(conductance(slip, 'over the tips', 'pinion'), ((20 * 0.05 ** 3) / (12 * 4.13803 * 2)) * 1e-9, 1e-5);
    expectRelative(conductance(slip, 'over the tips', 'ring'), ((20 * 0.06 ** 3) / (12 * 4.83831 * 2)) * 1e-9, 1e-5);
    // Off centre by half: (1.5³ + 0.5³) = 3.5 ways of 20 · 0.05³/(12 · 50).
    expectRelative(
      conductance(slip, 'round the ring', 'ring in the body'),
      ((3.5 * 20 * 0.05 ** 3) / (12 * 50)) * 1e-9,
      1e-9,
    );
    // Ring faces, blind: π (0.0375³ + 0.0125³)/(24 ln(80/64.5)).
    const faces = ((Math.PI * (0.0375 ** 3 + 0.0125 ** 3)) / (24 * Math.log(80 / 64.5))) * 1e-9;
    expectRelative(conductance(slip, 'over the faces', 'ring'), faces, 1e-9);
    // Drag: pinion b h π D/2, ring the same at 13/19 of the turns.
    const drag = (20 * Math.PI * (0.05 * 45 + (0.06 * 51 * 13) / 19) * 1e-9) / 2;
    expectRelative(slip.dragM3PerRev, drag, 1e-9);
  });

  it('opens the pinion to the crescent and shuts the ring on it in an aluminium body', () => {
    const map = mapOf(sheet, { ...MATERIALS, body: 'aluminium' });
    const warm = slipState({ temperatureK: 333.15 });
    const ofWarm = (label: string): number =>
      (forward(map, warm).gaps.find((gap) => gap.place === 'over the tips' && gap.label === label)?.slipM3PerS ??
        Number.NaN) * oilState(warm.oil, warm.temperatureK).dynamicViscosityPaS;
    const ofCold = (label: string): number =>
      conductance(forward(map), 'over the tips', label) * COLD.differentialPressurePa;
    expect(ofWarm('pinion')).toBeGreaterThan(1.5 * ofCold('pinion'));
    expect(ofWarm('ring')).toBeLessThan(0.7 * ofCold('ring'));
  });
});

describe('the gap map of a screw pump', () => {
  const sheet = sheetFor(twinScrew, { tipClearances: [tip('driver', 60e-6), tip('driven', 70e-6)] });

  it('is worked by hand: crests in series, crest over root, flank to flank', () => {
    // By hand [mm]: 2 · 100/50 = 4 crests; breadth 5 · 45/2 = 112.5.
    const slip = forward(mapOf(sheet));
    expectRelative(conductance(slip, 'over the tips', 'driver'), ((112.5 * 0.06 ** 3) / (12 * 4 * 12.5)) * 1e-9, 1e-9);
    // Crest over root, two places: R = 1/(2/45 + 2/30) = 9; 2 · (2 · 12.5/(9π)) 0.05^2.5/√18, over 4.
    const roots = (2 * ((2 * 12.5) / (9 * Math.PI)) * 0.05 ** 2.5) / Math.sqrt(18) / 4;
    expectRelative(conductance(slip, 'through the mesh', 'crest over root'), roots * 1e-9, 1e-9);
    // Flanks over the depth of both: 15 · 0.1³/(12 · 4 · 6).
    expectRelative(conductance(slip, 'through the mesh', 'between the flanks'), ((15 * 1e-3) / (12 * 24)) * 1e-9, 1e-9);
    // Drag: breadth · h · lead/2.
    expectRelative(slip.dragM3PerRev, ((112.5 * (0.06 + 0.07) * 50) / 2) * 1e-9, 1e-9);
  });

  it('needs no end float, and binds when its screws grow more than the body', () => {
    const noFloat = mapOf({ ...sheet, endFloat: null });
    expect(forward(noFloat).slipM3PerS).toBe(forward(mapOf(sheet)).slipM3PerS);
    const tight = withChange(mapOf(sheet), 'tip.driver', -59e-6);
    expect(forwardSlip(tight, slipState({ temperatureK: 373.15 }))).toMatchObject({
      ok: false,
      reason: { code: 'NEGATIVE_CLEARANCE', quantity: 'tip clearance, driver, warm [m]' },
    });
  });
});

describe('the gap map of a vane pump', () => {
  it('is worked by hand for a single ring: vanes off the ring, and the near gap as a roll', () => {
    const slip = forward(mapOf(sheetFor(vane, { tipClearances: [tip('driver', 20e-6)] })));
    // By hand [mm]: 12/2π = 1.909859 vanes of 1: 30 · 0.02³/(12 · 1.909859).
    expectRelative(conductance(slip, 'over the tips', 'vanes'), ((30 * 8e-6) / (12 * 1.909859)) * 1e-9, 1e-6);
    // Near gap: R = 1/(2/60 − 1/33.015); 2 · 30/(9π) · 0.03^2.5/√(2R).
    const radius = 1 / (2 / 60 - 1 / 33.015);
    const near = (((2 * 30) / (9 * Math.PI)) * 0.03 ** 2.5) / Math.sqrt(2 * radius);
    expectRelative(conductance(slip, 'between rotor and ring', 'near gap'), near * 1e-9, 1e-9);
    // Drag goes back: tips π b h (36 − 30.03), near gap b (4/3) h π 60/2.
    const drag = -(Math.PI * 30 * 0.02 * 5.97 + (30 * (4 / 3) * 0.03 * Math.PI * 60) / 2) * 1e-9;
    expectRelative(slip.dragM3PerRev, drag, 1e-9);
  });

  it('seals at the tips while the vanes are pressed to the ring', () => {
    const slip = forward(mapOf(sheetFor(vane, { tipClearances: [tip('driver', 0)] })));
    expect(conductance(slip, 'over the tips', 'vanes')).toBe(0);
  });

  it('works twice a turn in a balanced ring, whose near arcs run even', () => {
    const slip = forward(mapOf(sheetFor({ ...vane, strokesPerTurn: 2 }, { tipClearances: [tip('driver', 20e-6)] })));
    expectRelative(conductance(slip, 'over the tips', 'vanes'), (2 * (30 * 8e-6) * 1e-9) / (12 * 1.909859), 1e-6);
    // By hand [mm]: 2 · 30 · 0.03³/(12 · 30).
    expectRelative(conductance(slip, 'between rotor and ring', 'near gap'), ((60 * 2.7e-5) / 360) * 1e-9, 1e-9);
  });
});

describe('gapMapOf', () => {
  it('names what the sheet lacks', () => {
    const refused = (sheet: Parameters<typeof gapMapOf>[0]): unknown => {
      const map = gapMapOf(sheet, MATERIALS);
      return map.ok ? null : [map.reason.code, map.reason.quantity];
    };
    expect(refused(feedSheet({ gapDimensions: null }))).toEqual(['NOT_MEASURED', 'dimensions of the gaps']);
    expect(refused(feedSheet({ endFloat: null }))).toEqual(['NOT_MEASURED', 'end float']);
    expect(refused(feedSheet({ tipClearances: [tip('driver', 4e-5)] }))).toEqual([
      'NOT_MEASURED',
      'tip clearance, driven',
    ]);
  });

  it('hands on what is impossible: a bush smaller than its shaft, a shaft as thick as the root', () => {
    expect(gapMapOf(feedSheet({ shaftsInBushes: [bush('driver', 'far end', 0.016, -1e-5)] }), MATERIALS)).toMatchObject(
      {
        ok: false,
        reason: { code: 'NEGATIVE_CLEARANCE', quantity: 'clearance of the shaft, far end [m]' },
      },
    );
    expect(gapMapOf(feedSheet({ shaftsInBushes: [bush('driver', 'far end', 0.0285, 3e-5)] }), MATERIALS)).toMatchObject(
      {
        ok: false,
        reason: { code: 'SHAFT_WIDER_THAN_ROOT', value: 0.0285, limit: 0.0285 },
      },
    );
    const tips = { method: 'diameters', part: 'driver', boreDiameterM: reading(0.04), tipDiameterM: reading(0.042) };
    expect(gapMapOf(feedSheet({ tipClearances: [tips] }), MATERIALS)).toMatchObject({
      ok: false,
      reason: { code: 'NEGATIVE_CLEARANCE', quantity: 'tip clearance, driver [m]' },
    });
  });
});
