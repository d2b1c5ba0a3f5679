import { expect, it } from 'vitest';
import { createGearMesh, PRACTICE_GEARS } from '../../../rig/practiceBench/gearMesh.ts';
import { expectWithin } from './expectWithin.ts';

it('displaces the published mean volume of a standard pair', () => {
  // Manring & Kasaragadda (2003), J. Dyn. Syst. Meas. Control 125, form 2πb(r_a² − r_w² − p_b²/12), m 3 mm, z 12, 20°,
  // b 20 mm: p_b = 8.856394302 mm, V = 2π · 20 · (441 − 324 − 78.435720/12) = 13 881.2767 mm³.
  expectWithin(createGearMesh(PRACTICE_GEARS).sweptVolumeM3PerRev, 13_881.2767e-9, 1e-8);
});

it('displaces the published mean volume of a pair on a wider centre distance', () => {
  // Same source: m 3.5 mm, z 12, 20°, tip radius 25 mm, centre distance 42 mm, b 20 mm: 22 004.13665 mm³.
  const mesh = createGearMesh({
    ...PRACTICE_GEARS,
    moduleM: 0.0035,
    tipDiameterM: 0.05,
    centreDistanceM: 0.042,
  });
  expectWithin(mesh.sweptVolumeM3PerRev, 22_004.13665e-9, 1e-8);
});

it('ripples by the published share of its mean flow', () => {
  // Manring & Kasaragadda (2003): (q_max − q_min)/q_mean = (p_b²/4)/(r_a² − r_w² − p_b²/12) = 0.177515.
  const mesh = createGearMesh(PRACTICE_GEARS);
  const largest = mesh.displacementM3PerRev(0.5);
  const smallest = mesh.displacementM3PerRev(0);
  expect(Math.abs((largest - smallest) / mesh.sweptVolumeM3PerRev - 0.177515)).toBeLessThan(1e-6);
});

it('displaces as much between two angles as the instantaneous flow sums up to', () => {
  // Midpoint sum of the instantaneous law over 1.37 teeth, 20 000 parts: its own error is below 1e-8.
  const mesh = createGearMesh(PRACTICE_GEARS);
  const parts = 20_000;
  let sumM3 = 0;
  for (let part = 0; part < parts; part++) {
    sumM3 += (mesh.displacementM3PerRev(0.21 + (1.37 * (part + 0.5)) / parts) * 1.37) / parts / 12;
  }
  expectWithin(mesh.displacedM3(0.21, 1.58), sumM3, 1e-7);
});

it('displaces the swept volume in a whole turn from any angle', () => {
  // Twelve teeth are a turn, by definition.
  const mesh = createGearMesh(PRACTICE_GEARS);
  for (const tooth of [0, 0.3, 7.9]) expectWithin(mesh.displacedM3(tooth, tooth + 12), mesh.sweptVolumeM3PerRev, 1e-12);
});
