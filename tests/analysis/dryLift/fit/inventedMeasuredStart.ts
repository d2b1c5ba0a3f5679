import type { DryFitInput } from '../../../../analysis/dryLift/fit/dryFitInput.ts';
import type { PreparedStart } from '../../../../analysis/dryLift/fit/measuredStart.ts';
import { pipeAt } from '../../../../analysis/dryLift/fit/predictStart.ts';
import { suctionSideOf } from '../../../../analysis/dryLift/fit/suctionSide.ts';
import { simulateBlanked } from '../../../../analysis/dryLift/model/blankedSuction.ts';
import type { DryPump } from '../../../../analysis/dryLift/model/dryPump.ts';
import { PRESSURE_PA, simulateDryStart } from '../../../../analysis/dryLift/model/simulateDryStart.ts';
import { rampedSpeed } from '../../../../analysis/dryLift/model/speedCourse.ts';
import { sampleCourse } from '../../../../analysis/fitting/integrateStiff.ts';
import type { SetUp } from '../../../../analysis/records/runRecord.ts';
import { exactly, type Source } from '../../../../analysis/uncertainty/source.ts';
import { PRACTICE_RUN_SET_UP } from '../../../../rig/session/practiceConditions.ts';
import { TIGHT_PUMP } from '../../../support/inventedDryStart.ts';
import { normal } from '../../../support/random.ts';

/** An invented pump of 16 cm³ a turn that leaks. */
export const LEAKY_PUMP: DryPump = {
  ...TIGHT_PUMP,
  capacityM3PerRev: 16e-6,
  gapConstantM3PerSPerPa: 2e-9,
  entryLossS2PerM6: 0.55 / (2e-9 * 101_325) ** 2,
  carryOverShare: 0.01,
};

export const INVENTED_SET_UP: SetUp = {
  ...PRACTICE_RUN_SET_UP,
  suctionSideStandardUncertainty: { boreM: 5e-5, lengthM: 2e-3, deadVolumeM3: 3e-6 },
};

export const SPEED_REV_PER_S = 10;
const NOISE_PA = 30;
const INTERVAL_S = 0.02;
const MOTOR_START_S = 0.1;
const EXPONENT = 1.2;

function source(id: string, standardUncertainty: number): Source {
  return {
    id,
    label: id,
    kind: 'calibration',
    standardUncertainty,
    degreesOfFreedom: null,
    shape: 'normal',
    pooledAs: null,
  };
}

/** Errors of barometer, suction channel and capacity. */
const INVENTED_SOURCES: readonly Source[] = [
  source('setUp.barometer', 50),
  source('suctionPressure.offset', 50),
  source('suctionPressure.gain', 5e-4),
  source('capacity', 0.003 * LEAKY_PUMP.capacityM3PerRev),
];

export type InventedStart = {
  readonly kind?: 'lift' | 'blanked';
  readonly pump?: DryPump;
  readonly speedRevPerS?: number;
  readonly setUp?: SetUp;
  readonly seed?: number | null;
  readonly watchS?: number;
  readonly id?: string;
};

/**
 * A start of a pump whose numbers are known, by the project's own model with its error control: what the fit must find again.
 * No errors but noise, and none of that with seed null.
 */
export function inventedStart(options: InventedStart = {}): PreparedStart {
  const { kind = 'lift', pump = LEAKY_PUMP, speedRevPerS = SPEED_REV_PER_S, setUp = INVENTED_SET_UP } = options;
  const { seed = null, watchS = 8, id = `invented-${kind}` } = options;
  const atmospherePa = 101_325;
  const ramp = rampedSpeed(speedRevPerS, 0.4);
  const course = (elapsedS: number): number => (elapsedS < MOTOR_START_S ? 0 : ramp(elapsedS - MOTOR_START_S));
  const side = suctionSideOf(setUp);
  const oil = { densityKgPerM3: 860, dynamicViscosityPaS: 0.045 };
  const running = {
    pump,
    speedRevPerS: course,
    atmospherePa,
    deliveryPressurePa: atmospherePa,
    polytropicExponent: EXPONENT,
  };
  const lift = simulateDryStart(
    {
      ...running,
      pipe: pipeAt(side.pipe, ({ value }) => value),
      deadVolumeM3: setUp.deadVolumeM3,
      oil,
      outletVolumeM3: 0,
      deliveryLineVolumeM3: 0,
    },
    watchS,
    1e-8,
  );
  const untilS = kind === 'blanked' ? watchS : Math.min(watchS, (lift.oilAtInletS ?? watchS) - 0.05);
  const timesS = Array.from({ length: Math.floor(untilS / INTERVAL_S) }, (_, index) => index * INTERVAL_S);
  const pressuresPa =
    kind === 'blanked'
      ? sampleCourse(simulateBlanked({ ...running, closedVolumeM3: setUp.deadVolumeM3 }, watchS, 1e-8), 0, timesS)
      : sampleCourse(lift.rise, PRESSURE_PA, timesS);
  const noise = seed === null ? () => 0 : normal(seed);
  return {
    start: {
      id,
      kind,
      motorStartS: MOTOR_START_S,
      timesS: [-0.5, ...timesS],
      pressuresPa: [atmospherePa, ...pressuresPa].map((pressurePa, index) => ({
        value: pressurePa + (index === 0 ? NOISE_PA / 10 : NOISE_PA) * noise(),
        sensitivities: { 'suctionPressure.offset': -1, 'suctionPressure.gain': -pressurePa },
      })),
      standardDeviationsPa: [NOISE_PA / 10, ...timesS.map(() => NOISE_PA)],
      suctionLagS: 0,
      speedRevPerS: course,
      runningRevPerS: speedRevPerS,
      timingStandardUncertaintyS: 0.006,
      surroundings: {
        atmospherePa: { value: atmospherePa, sensitivities: { 'setUp.barometer': 1 } },
        densityKgPerM3: exactly(oil.densityKgPerM3),
        dynamicViscosityPaS: exactly(oil.dynamicViscosityPaS),
        pipe: side.pipe,
      },
    },
    deadVolume: side.deadVolume,
    speedScale: exactly(1),
    sources: side.sources,
    assumed: side.assumed,
    restDifferencePa: null,
  };
}

/** The same for the fit. */
export function inventedInput(...prepared: readonly PreparedStart[]): DryFitInput {
  return {
    prepared,
    capacity: {
      m3PerRev: { value: LEAKY_PUMP.capacityM3PerRev, sensitivities: { capacity: 1 } },
      basis: 'derived',
    },
    sources: INVENTED_SOURCES,
    shaftEnds: 'sealed',
  };
}
