import { expect, it } from 'vitest';
import { createInletGas } from '../../../rig/practiceBench/inletGas.ts';
import { expectWithin } from './expectWithin.ts';

const ATMOSPHERE_PA = 101_325;
const AT = { suctionPressurePa: ATMOSPHERE_PA, sweptM3PerS: 2e-4, wetForS: 1e3 };

it('is nothing in a sound oil at a moderate vacuum', () => {
  const gas = createInletGas({}, ATMOSPHERE_PA);
  expect(gas.share(AT)).toBe(0);
  // 0.6 bar: nothing comes out of solution before that.
  expect(gas.share({ ...AT, suctionPressurePa: 6e4 })).toBe(0);
});

it('lets dissolved air out below 0.6 bar, by Henry and Boyle', () => {
  // An oil that holds 9 % by volume sets (60 − 30) kPa of it free at 30 kPa, where it takes 9 % · 30/30 of the oil's
  // volume: 0.09/1.09 = 0.08256881 of what flows.
  expectWithin(createInletGas({}, ATMOSPHERE_PA).share({ ...AT, suctionPressurePa: 3e4 }), 0.08256881, 1e-6);
});

it('takes up twice the room at half the pressure', () => {
  // 2 % at atmospheric pressure: 0.02/0.98 of the oil's volume, twice that at half the pressure (above 0.6 bar of
  // barometer, here 1.4 bar): 0.0408163/1.0408163 = 0.03921569.
  const gas = createInletGas({ freeAirShare: 0.02 }, 1.4e5);
  expectWithin(gas.share({ ...AT, suctionPressurePa: 1.4e5 }), 0.02, 1e-12);
  expectWithin(gas.share({ ...AT, suctionPressurePa: 0.7e5 }), 0.03921569, 1e-6);
});

it('settles at rest with a time constant of a minute and is churned in again in forty seconds', () => {
  const gas = createInletGas({ freeAirShare: 0.02 }, ATMOSPHERE_PA);
  for (let step = 0; step < 60_000; step++) gas.advance(false, 1e-3);
  // exp(−1) of the volume ratio is, for so small a share, that of the share: 0.02 · 0.36788 = 0.0073576 within 1.3 %.
  expectWithin(gas.share(AT), 0.0073576, 2e-4);
  for (let step = 0; step < 40_000; step++) gas.advance(true, 1e-3);
  // Of the missing 0.0126424 exp(−1) is still missing: 0.02 − 0.0046509 = 0.0153491.
  expectWithin(gas.share(AT), 0.0153491, 2e-4);
});

it('counts what comes in through a hole in the pipe, the less the faster the pump turns', () => {
  // Hole of Cd A 1e-8 m² at 20 kPa of vacuum: 1e-8 · 101 325 · √(2/1.2) · √20 000 = 0.1849933 Pa m³/s; at 81 325 Pa
  // 2.274741e-6 m³/s, to 2e-4 m³/s swept a ratio of 0.01137371, a share of 0.01124580.
  const gas = createInletGas({ pipeLeakM2: 1e-8 }, ATMOSPHERE_PA);
  expectWithin(gas.share({ ...AT, suctionPressurePa: 81_325 }), 0.0112458, 1e-5);
  expectWithin(gas.share({ ...AT, suctionPressurePa: 81_325, sweptM3PerS: 4e-4 }), 0.00565469, 1e-5);
});

it('comes in bursts behind a foaming start and is gone after the last', () => {
  // Three bursts of 2 s: oil in the first half of each, next to nothing but gas in the second.
  const gas = createInletGas({ foam: { burstCount: 3, periodS: 2 } }, ATMOSPHERE_PA);
  const shares = [0.5, 1.5, 2.5, 3.5, 4.5, 5.5].map((wetForS) => gas.share({ ...AT, wetForS }));
  for (const [index, share] of shares.entries()) {
    if (index % 2 === 0) expect(share).toBeLessThan(0.5);
    else expect(share).toBeGreaterThan(0.9);
  }
  expect(gas.share({ ...AT, wetForS: 6.1 })).toBe(0);
});
