import { expect, it } from 'vitest';
import { createPracticeBench } from '../../../rig/practiceBench/createPracticeBench.ts';
import { createDisplacer } from '../../../rig/practiceBench/displacer.ts';
import { createOil } from '../../../rig/practiceBench/oil.ts';
import { type PumpKind, pumpKind } from '../../../rig/practiceBench/pumpKind.ts';
import { buildPump, mountPump, type PumpTruth } from '../../../rig/practiceBench/pumpTruth.ts';
import { createRandom } from '../../../rig/practiceBench/random.ts';
import { PRACTICE_SET_UP } from '../../../rig/practiceBench/setUp.ts';
import { trueDelivery } from '../../../rig/practiceBench/trueDelivery.ts';
import { expectWithin } from './expectWithin.ts';

const PUMP: PumpTruth = {
  kind: 'externalGear',
  sweptVolumeM3PerRev: 14e-6,
  derivedCapacityAtReferenceM3PerRev: 14e-6,
  laminarSlipAtReferenceM3: 2e-12,
  orificeSlipM2: 1.25e-7,
  gasGapM3PerSPerPa: 1e-9,
  carryOverShare: 0.004,
};

it('delivers, slips and warms as worked by hand', () => {
  // 15 rev/s, 3 bar, 318.15 K: q₁ = 1.936083750e-4 (see the true flow), slip 2.1e-4 − q₁ = 1.63916250e-5 m³/s. Torque
  // 0.9465859 N m and 89.21362 W on 0.16578737 kg/s warm the outlet by 0.2759594 − 0.1385082 = 0.1374512 K; there the oil
  // is exp(−7.2e-4 · 0.1374512 + 3e5/1.61958765e9) = 1.00008627 times as dense: q₂ = 1.935916736e-4, η 0.92186511.
  const delivery = trueDelivery(PUMP, createOil(PRACTICE_SET_UP), {
    speedRevPerS: 15,
    differentialPressurePa: 3e5,
    inletPressurePa: 96_325,
    oilTemperatureK: 318.15,
  });
  expectWithin(delivery.derivedCapacityM3PerRev, 14e-6, 1e-12);
  expectWithin(delivery.inletFlowM3PerS, 1.93608375e-4, 1e-8);
  expectWithin(delivery.slipFlowM3PerS, 1.6391625e-5, 1e-7);
  expectWithin(delivery.portFlowM3PerS, 1.935916736e-4, 1e-8);
  expectWithin(delivery.volumetricEfficiency, 0.92186511, 1e-7);
});

it.each([3, 44])('is what the bench does there, mean over the ripple (seed %i)', (seed) => {
  const bench = createPracticeBench({ seed, scenario: 'healthy' });
  for (const command of ['flood', 'speed 900', 'pressure 3']) bench.command(command);
  bench.step(25);
  const means = { portM3PerS: 0, inletM3PerS: 0, deliveryPa: 0, suctionPa: 0 };
  const steps = 4000;
  for (let step = 0; step < steps; step++) {
    bench.step(1e-3);
    const state = bench.state();
    means.portM3PerS += state.portFlowM3PerS / steps;
    means.inletM3PerS += state.inletFlowM3PerS / steps;
    means.deliveryPa += state.deliveryPressurePa / steps;
    means.suctionPa += state.suctionPressurePa / steps;
  }
  const { oilTemperatureK, speedRevPerS } = bench.state();
  const truth = trueDelivery(bench.truth().pump, createOil(PRACTICE_SET_UP), {
    speedRevPerS,
    differentialPressurePa: means.deliveryPa - means.suctionPa,
    inletPressurePa: means.suctionPa,
    oilTemperatureK,
  });
  // Two routes: the stepped line with its ripple, and the law at the mean; the bend of the root law over the ripple is less than 1e-5.
  expectWithin(means.inletM3PerS, truth.inletFlowM3PerS, 5e-5);
  expectWithin(means.portM3PerS, truth.portFlowM3PerS, 5e-5);
  expectWithin(means.portM3PerS / means.inletM3PerS, truth.portFlowM3PerS / truth.inletFlowM3PerS, 1e-5);
});

it('displaces more and slips more when it is hot', () => {
  // 10 K: V_i by 3.6e-4; laminar gaps by 1 % on top of what the thinner oil lets through.
  const at = { speedRevPerS: 15, differentialPressurePa: 3e5, inletPressurePa: 96_325 };
  const oil = createOil(PRACTICE_SET_UP);
  const cool = trueDelivery(PUMP, oil, { ...at, oilTemperatureK: 318.15 });
  const hot = trueDelivery(PUMP, oil, { ...at, oilTemperatureK: 328.15 });
  expectWithin(hot.derivedCapacityM3PerRev, cool.derivedCapacityM3PerRev * 1.00036, 1e-9);
  const laminar = (slipM3PerS: number, temperatureK: number): number =>
    slipM3PerS - 1.25e-7 * Math.sqrt(6e5 / oil(temperatureK).densityKgPerM3);
  const viscosities = oil(318.15).dynamicViscosityPaS / oil(328.15).dynamicViscosityPaS;
  expectWithin(laminar(hot.slipFlowM3PerS, 328.15) / laminar(cool.slipFlowM3PerS, 318.15), 1.01 * viscosities, 1e-6);
});

it.each<[PumpKind, number]>([
  // As its own test works out.
  ['externalGear', 13_881.2767e-9],
  // As its parts list says.
  ['screw', 42e-6],
  // By hand [mm]: π 20 [(22.5² − 19.5²) + (13/19)(28.5² − 27²) − (6/19) 8.856394²/12] =
  // 62.831853 · (126 + 56.960526 − 2.064098) = 11 366.058 mm³.
  ['internalGear', 11_366.058e-9],
])('the %s pump displaces its swept volume in a turn from any angle', (kind, sweptM3) => {
  const displacer = createDisplacer(kind);
  for (const pulse of [0, 0.4, 5.7]) {
    expectWithin(displacer.displacedM3(pulse, pulse + displacer.pulsesPerRev), sweptM3, 1e-7);
  }
});

it('the internal gears ripple by 3.42 per cent, the screws not at all', () => {
  // (6/19) 8.856394²/4 over the bracket of 180.8964 mm² is 0.0342; a thousandth of a pulse is as good as an instant.
  const ripple = (kind: PumpKind): number => {
    const { displacedM3 } = createDisplacer(kind);
    const instants = Array.from({ length: 1000 }, (_, part) => displacedM3(part / 1000, (part + 1) / 1000));
    const mean = instants.reduce((sum, value) => sum + value, 0) / 1000;
    return (Math.max(...instants) - Math.min(...instants)) / mean;
  };
  expectWithin(ripple('internalGear'), 0.0342, 1e-3);
  expect(ripple('screw')).toBeLessThan(1e-9);
});

it('a pump mounted anew has other gaps: 2 per cent of slip, 0.03 per cent of capacity (seeds 1 to 2000)', () => {
  // The estimate of a standard deviation from 2000 draws is good to 1/√4000 = 1.6 %; four of that allowed.
  const built = buildPump('healthy', createRandom(1, 1));
  const mounted = Array.from({ length: 2000 }, (_, index) => mountPump(built, createRandom(index + 1, 1001)));
  const spread = (value: (pump: PumpTruth) => number): number => {
    const ratios = mounted.map((pump) => value(pump) / value(built) - 1);
    return Math.sqrt(ratios.reduce((sum, ratio) => sum + ratio ** 2, 0) / ratios.length);
  };
  expectWithin(
    spread((pump) => pump.derivedCapacityAtReferenceM3PerRev),
    3e-4,
    0.064,
  );
  expectWithin(
    spread((pump) => pump.laminarSlipAtReferenceM3),
    0.02,
    0.064,
  );
  for (const pump of mounted) {
    expectWithin(
      pump.orificeSlipM2 / built.orificeSlipM2,
      pump.laminarSlipAtReferenceM3 / built.laminarSlipAtReferenceM3,
      1e-12,
    );
  }
});

it('every kind is built in every condition, the worn always slips more than the healthy (seeds 1 to 20)', () => {
  for (const kind of pumpKind.options) {
    for (let seed = 1; seed <= 20; seed++) {
      const [healthy, worn] = (['healthy', 'worn'] as const).map((scenario) =>
        buildPump(scenario, createRandom(seed, 1), kind),
      );
      // Worn has 5.75 times the laminar gap, each ± 5 %: at least 5.2 times.
      expect((worn?.laminarSlipAtReferenceM3 ?? 0) / (healthy?.laminarSlipAtReferenceM3 ?? 0)).toBeGreaterThan(5.2);
    }
  }
});
