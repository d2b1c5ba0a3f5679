import { expect, it } from 'vitest';
import {
  advanceColumn,
  type Column,
  columnAtRest,
  type Draw,
  type SuctionPipe,
} from '../../../rig/practiceBench/suctionColumn.ts';
import { expectWithin } from './expectWithin.ts';

const ATMOSPHERE_PA = 101_325;
const STEP_S = 1e-5;

/** Pipe of the published cases: straight up, 25 mm bore, isothermal gas. */
const PIPE: SuctionPipe = {
  staticLiftM: 0.5,
  boreM: 0.025,
  lengthM: 0.5,
  submergedLengthM: 0.2,
  deadVolumeM3: 50e-6,
  polytropicExponent: 1,
  inertiaShare: 1,
};

const DRAW: Draw = {
  atmospherePa: ATMOSPHERE_PA,
  intakeM3PerS: (20e-6 * 1450) / 60,
  deliveryPressurePa: ATMOSPHERE_PA,
  gap: { constantM3PerSPerPa: 0, entryShare: 0 },
  carryOverShare: 0,
};

function oilOf(densityKgPerM3: number, kinematicViscosityM2PerS: number) {
  return { densityKgPerM3, dynamicViscosityPaS: densityKgPerM3 * kinematicViscosityM2PerS };
}

function climb(pipe: SuctionPipe, draw: Draw, oil: ReturnType<typeof oilOf>, stepS: number, limitS: number) {
  let column: Column = columnAtRest(ATMOSPHERE_PA);
  let steps = 0;
  while (column.lengthM < pipe.lengthM && steps * stepS < limitS) {
    column = advanceColumn(column, pipe, draw, oil, stepS);
    steps += 1;
  }
  return { column, arrivalS: steps * stepS };
}

it('climbs in the closed-form time when gas is isothermal, nothing leaks and the column has next to no inertia', () => {
  // Quasi-static column: t(h) = (A/Q)[2h + (l − H_a) ln(H_a/(H_a − h))] with H_a = p_a/(ρg) = 11.876178 m and
  // l = L + V_d/A = 0.601859 m gives 0.523092890 s. Derived from the gas balance; quadrature agrees to 1e-11.
  const pipe = { ...PIPE, submergedLengthM: 0.02, inertiaShare: 0.003 };
  expectWithin(climb(pipe, DRAW, oilOf(870, 1e-6), STEP_S, 5).arrivalS, 0.52309289, 0.01);
});

it('climbs in the reference time with inertia, laminar friction and entry loss', () => {
  // Reference solution of ρ(l₀+x)v' = p_a − p − ρgx − 32µ(l₀+x)v/d² − ρv²/2, (pV)' = −pQ by Radau and DOP853, which agree
  // to 1e-13: ν 46 mm²/s, ρ 870: t 0.5339731942 s, v 1.092764 m/s, p 95 110.477 Pa at arrival.
  const { column, arrivalS } = climb(PIPE, DRAW, oilOf(870, 46e-6), STEP_S, 5);
  expectWithin(arrivalS, 0.5339731942, 3e-4);
  expectWithin(column.speedMPerS, 1.092764, 2e-3);
  expectWithin(column.gasPressurePa, 95_110.477, 2e-4);
});

it('climbs in the reference time with thick oil', () => {
  // Same equations and solvers: Q 10 cm³ × 600 r/min, ν 1000 mm²/s, ρ 890: t 2.664993631 s, p 90 576.886 Pa.
  const draw = { ...DRAW, intakeM3PerS: 10e-6 * 10 };
  const { column, arrivalS } = climb(PIPE, draw, oilOf(890, 1000e-6), STEP_S, 5);
  expectWithin(arrivalS, 2.664993631, 3e-4);
  expectWithin(column.gasPressurePa, 90_576.886, 2e-4);
});

it('needs no finer step than the bench takes', () => {
  // Against the same reference solution; the bench's step for the column is 0.25 ms.
  expectWithin(climb(PIPE, DRAW, oilOf(870, 46e-6), 2.5e-4, 5).arrivalS, 0.5339731942, 2e-3);
});

it('comes to rest where the gas that leaks back equals the gas taken', () => {
  // p Q = C (p_d² − p²): slot b 100 mm, h 30 µm, L 5 mm, air 18.2 µPa s: C = 1.23626374e-9 m³/(s Pa), so
  // p = [−Q + √(Q² + 4C²p_d²)]/(2C) = 24 699.7285 Pa, 8.98115 m of oil at 870 kg/m³.
  const pipe = { ...PIPE, staticLiftM: 12, lengthM: 12 };
  const draw = { ...DRAW, gap: { constantM3PerSPerPa: 1.23626374e-9, entryShare: 0 } };
  const { column } = climb(pipe, draw, oilOf(870, 46e-6), 1e-3, 600);
  expectWithin(column.gasPressurePa, 24_699.7285, 1e-5);
  expectWithin(column.lengthM, 8.98115, 1e-5);
});

it('rests lower with an entry loss in the gap and lower still with carry-over', () => {
  // The entry loss hinders the leak, so the pressure is lower (the column higher); carry-over brings gas back, so it is
  // higher. At the balance p Q = G + κ Q p_d with G/C + e G²/(C² · 1e9 Pa²) = p_d² − p²; both checked by hand below.
  const pipe = { ...PIPE, staticLiftM: 12, lengthM: 12 };
  const constantM3PerSPerPa = 1.23626374e-9;
  const draw = { ...DRAW, gap: { constantM3PerSPerPa, entryShare: 0.1 }, carryOverShare: 0.004 };
  const { column } = climb(pipe, draw, oilOf(870, 46e-6), 1e-3, 600);
  const leak = column.gasPressurePa * DRAW.intakeM3PerS - 0.004 * DRAW.intakeM3PerS * ATMOSPHERE_PA;
  const laminar = leak / constantM3PerSPerPa;
  expectWithin(laminar + (0.1 * laminar ** 2) / 1e9, ATMOSPHERE_PA ** 2 - column.gasPressurePa ** 2, 1e-4);
});

it('falls back to the oil surface when the pump stands and its gaps leak', () => {
  const gap = { constantM3PerSPerPa: 5e-9, entryShare: 0.1 };
  const oil = oilOf(870, 46e-6);
  let column = climb({ ...PIPE, lengthM: 0.3 }, DRAW, oil, 1e-4, 5).column;
  expect(column.lengthM).toBeGreaterThan(0.29);
  // A p_a dx/dt = −C 2 p_a ρ g x: it sinks with a time constant of A/(2 C ρ g) = 5.8 s, a little more for the entry loss;
  // after 60 s 0.3 m · exp(−10) is a hundredth of a millimetre.
  for (let step = 0; step < 60_000; step++) {
    column = advanceColumn(column, PIPE, { ...DRAW, intakeM3PerS: 0, gap }, oil, 1e-3);
  }
  expect(column.lengthM).toBeLessThan(1e-4);
  expectWithin(column.gasPressurePa, ATMOSPHERE_PA, 1e-4);
});

it('cools the gas when it is drawn out quickly: the polytropic exponent shows in a closed volume', () => {
  // A pipe full of oil so thick that it does not move in 10 ms: V dp/dt = −k p Q, p = p₀ exp(−k Q t/V), k = 1.2,
  // V = A L + V_d = 245.437e-6 + 50e-6 m³, Q t = 4.83333e-6 m³: p/p₀ = exp(−1.2 · 0.0163599) = 0.980560.
  const thick = oilOf(870, 1000);
  let column = columnAtRest(ATMOSPHERE_PA);
  const pipe = { ...PIPE, polytropicExponent: 1.2 };
  for (let step = 0; step < 1000; step++) column = advanceColumn(column, pipe, DRAW, thick, 1e-5);
  expectWithin(column.gasPressurePa / ATMOSPHERE_PA, 0.98056, 1e-5);
});
