import { siFrom, unitOf } from '../../analysis/units.ts';
import { type Command, readCommand } from './command.ts';
import { dryBalance } from './dryLiftLimit.ts';
import { createHydraulics, type TrueState } from './hydraulics.ts';
import { createOil } from './oil.ts';
import { type PracticePlant, practicePlant } from './plant.ts';
import type { PracticeTruth } from './practiceTruth.ts';
import { createPrimingWatch } from './primingWatch.ts';
import type { PumpKind } from './pumpKind.ts';
import {
  buildPump,
  derivedCapacityM3PerRev,
  laminarSlipM3,
  mountPump,
  type PracticeScenario,
  type PumpTruth,
} from './pumpTruth.ts';
import { createRandom } from './random.ts';
import { createSensor, type ErrorShape, PRACTICE_SENSORS } from './sensors.ts';
import { noteSentence, readingSentence } from './sentence.ts';
import { PRACTICE_SET_UP, type PracticeSetUp } from './setUp.ts';
import { trueValues } from './trueValues.ts';
import { createValveHand } from './valveHand.ts';

export type PracticeBenchOptions = {
  /** Whole number; the same seed gives the same bytes. */
  readonly seed: number;
  readonly scenario: PracticeScenario;
  /** Readings in a second of bench time, 1 to 1000. Default 50. */
  readonly readingsPerS?: number;
  /** Bench seconds in a second of the wall, said in the greeting and setting its pace. Default 1. */
  readonly speedUp?: number;
  readonly setUp?: PracticeSetUp;
  /** Oil in the tank at the start. Default 318.15 K. */
  readonly oilTemperatureK?: number;
  /** Which pump stands on the bench. Default: external gears. */
  readonly pump?: PumpKind;
  /** Counts how often the pump was mounted anew; each mounting moves its gaps a little. Default: as built. */
  readonly mounting?: number;
  /** What is wrong or special. Default nothing. */
  readonly plant?: PracticePlant;
  /** How the errors of the instruments are spread; the bench record must say the same. Default normal. */
  readonly sensorShape?: ErrorShape;
  /** Where counter and device clock begin. Default 0. */
  readonly firstSequence?: number;
  readonly firstDeviceUs?: number;
};

export type PracticeBench = {
  /** Lets bench time pass; gives the sentences that fall due, each with its CR LF. */
  readonly step: (dtS: number) => string[];
  /** One command line; an answer, if any, comes with the next step. */
  readonly command: (text: string) => void;
  readonly truth: () => PracticeTruth;
  /** Noise-free state, for tests. */
  readonly state: () => TrueState & {
    readonly elapsedS: number;
    readonly valveOpening: number;
    readonly isHandTurning: boolean;
  };
};

/** Bench time passes in whole steps of this, however it is asked for: cut differently, the bytes stay the same. */
const STEPS_PER_S = 1000;
const STEP_S = 1 / STEPS_PER_S;
const PUMP_STREAM = 1;
const SENSOR_STREAM = 2;
const NOISE_STREAM = 3;
/** Mounting k draws from this stream and k. */
const MOUNTING_STREAM = 1000;
const HOUSE_SPEED_REV_PER_S = 10;

/**
 * The practice bench as a pure stepper: no port, no clock of its own. It begins dry (class W1), at rest, valve open.
 *
 * @param options - seed, scenario and pace [SI]
 * @returns the bench
 * @throws RangeError if the seed is not a whole number or a rate lies outside its limits
 */
export function createPracticeBench(options: PracticeBenchOptions): PracticeBench {
  const { seed, scenario, readingsPerS = 50, speedUp = 1, setUp = PRACTICE_SET_UP } = options;
  const { firstSequence = 0, firstDeviceUs = 0, oilTemperatureK = 318.15 } = options;
  const plant = practicePlant.parse(options.plant ?? {});
  if (!Number.isSafeInteger(seed)) throw new RangeError(`seed: expected a whole number, got ${seed}`);
  if (!(readingsPerS >= 1 && readingsPerS <= STEPS_PER_S)) {
    throw new RangeError(`readingsPerS: expected 1 to ${STEPS_PER_S}, got ${readingsPerS}`);
  }
  if (!(speedUp >= 0.1 && speedUp <= 100)) throw new RangeError(`speedUp: expected 0.1 to 100, got ${speedUp}`);

  const pumpOf = (kind: PumpKind): PumpTruth => {
    const built = buildPump(scenario, createRandom(seed, PUMP_STREAM), kind);
    const { mounting } = options;
    return mounting === undefined ? built : mountPump(built, createRandom(seed, MOUNTING_STREAM + mounting));
  };
  let pump = pumpOf(options.pump ?? 'externalGear');
  let hydraulics = createHydraulics(pump, setUp, oilTemperatureK, plant);
  const hand = createValveHand();
  const throttleHand = createValveHand();
  let priming = createPrimingWatch(pump.sweptVolumeM3PerRev);
  const build = createRandom(seed, SENSOR_STREAM);
  const noise = createRandom(seed, NOISE_STREAM);
  const trueValue = trueValues(setUp, plant);
  const sensors = PRACTICE_SENSORS.map((sensor) => {
    const follows = trueValue[sensor.channel];
    const conditions = {
      // Gauge pressures are against the air of the moment: the bench's own, whatever the record states.
      barometerPa: setUp.barometerPa,
      stepS: STEP_S,
      startSi: follows(hydraulics.state()),
      errorShape: options.sensorShape ?? 'normal',
      faults: (plant.sensors ?? []).filter(({ channel }) => channel === sensor.channel),
    };
    return { follows, ...createSensor(sensor, conditions, build, noise) };
  });
  const stepsPerGreeting = Math.round(STEPS_PER_S * speedUp);
  const greeting = noteSentence(`slipwright practice bench, speed-up ${speedUp}`);

  let askedS = 0;
  let stepCount = 0;
  let readingCount = 0;
  let commandedRevPerS = 0;
  let lastTurningRevPerS = HOUSE_SPEED_REV_PER_S;
  let isBlanked = false;
  let isPipeHeld = false;
  let due: string[] = [greeting];

  const fromUnit = (value: number, symbol: string): number => siFrom(value, unitOf(symbol), setUp.barometerPa);

  /** Another pump takes the place of the one that stands there: dry, at rest, the oil as warm as it was. */
  function mount(kind: PumpKind): void {
    if (kind === pump.kind) return;
    commandedRevPerS = 0;
    pump = pumpOf(kind);
    hydraulics = createHydraulics(pump, setUp, hydraulics.state().oilTemperatureK, plant);
    priming = createPrimingWatch(pump.sweptVolumeM3PerRev);
  }

  function obey(command: Command): void {
    switch (command.kind) {
      case 'speed':
        commandedRevPerS = fromUnit(command.speedRPerMin, 'r/min');
        if (commandedRevPerS > 0) lastTurningRevPerS = commandedRevPerS;
        break;
      case 'valve':
        hand.setOpening(command.opening);
        break;
      case 'pressure':
        hand.seekGauge(fromUnit(command.gaugeBar, 'bar(g)') - setUp.barometerPa);
        break;
      case 'ramp':
        hand.rampGauge(fromUnit(command.gaugeBar, 'bar(g)') - setUp.barometerPa, command.overS);
        break;
      case 'oil':
        hydraulics.setOilTemperature(fromUnit(command.temperatureC, 'degC'));
        break;
      case 'suction':
        throttleHand.setOpening(command.opening);
        break;
      case 'inlet':
        throttleHand.seekGauge(setUp.barometerPa - fromUnit(command.absoluteBar, 'bar(a)'));
        break;
      case 'blank':
        isBlanked = command.isShut;
        break;
      case 'hold':
        isPipeHeld = command.isShut;
        break;
      case 'pump':
        mount(command.pump);
        break;
      case 'dry':
        commandedRevPerS = 0;
        hydraulics.dry();
        break;
      case 'flood':
        hydraulics.flood();
        break;
    }
  }

  function oneStep(): void {
    const controls = {
      speedRevPerS: commandedRevPerS,
      valveOpening: hand.opening(),
      suctionOpening: throttleHand.opening(),
      isBlanked,
      isPipeHeld,
    };
    hydraulics.advance(controls, STEP_S);
    stepCount += 1;
    const state = hydraulics.state();
    const isDelivering = state.isLineFull && state.speedRevPerS > 0.5;
    hand.advance(state.deliveryPressurePa - setUp.barometerPa, isDelivering, STEP_S);
    throttleHand.advance(setUp.barometerPa - state.suctionPressurePa, isDelivering, STEP_S);
    priming.observe(stepCount * STEP_S, state.speedRevPerS, state.portFlowM3PerS);
    for (const sensor of sensors) sensor.follow(sensor.follows(state));
    if (stepCount % stepsPerGreeting === 0) due.push(greeting);
    if (Math.floor((stepCount * readingsPerS) / STEPS_PER_S) > readingCount) {
      const deviceUs = firstDeviceUs + Math.round(stepCount * STEP_S * 1e6);
      const values = sensors.map((sensor) => sensor.read());
      due.push(readingSentence(firstSequence + readingCount, deviceUs, values));
      readingCount += 1;
    }
  }

  function dryLiftAt(speedRevPerS: number, temperatureK: number): PracticeTruth['dryLift'] {
    const at = { speedRevPerS, temperatureK, atmospherePa: setUp.barometerPa, oil: createOil(setUp)(temperatureK) };
    const open = dryBalance(pump, plant, { ...at, isBlanked: false });
    const blanked = dryBalance(pump, plant, { ...at, isBlanked: true });
    return {
      speedRevPerS,
      limitM: open.limitM,
      balancePressurePa: open.pressurePa,
      blankOffPressurePa: blanked.pressurePa,
    };
  }

  return {
    step(dtS) {
      if (!(dtS >= 0 && Number.isFinite(dtS))) throw new RangeError(`dtS: expected 0 or more, got ${dtS}`);
      askedS += dtS;
      // A billionth of a step: sums of decimal fractions fall short of whole steps by rounding.
      const target = Math.floor(askedS * STEPS_PER_S + 1e-6);
      while (stepCount < target) oneStep();
      const sentences = due;
      due = [];
      return sentences;
    },
    command(text) {
      const reading = readCommand(text);
      if (reading.understood) obey(reading.command);
      else due.push(noteSentence(reading.why));
    },
    truth() {
      const { oilTemperatureK: temperatureK } = hydraulics.state();
      return {
        scenario,
        sweptVolumeM3PerRev: pump.sweptVolumeM3PerRev,
        derivedCapacityM3PerRev: derivedCapacityM3PerRev(pump, temperatureK),
        laminarSlipM3: laminarSlipM3(pump, temperatureK),
        orificeSlipM2: pump.orificeSlipM2,
        oilTemperatureK: temperatureK,
        pump,
        priming: priming.truth(),
        dryLift: dryLiftAt(lastTurningRevPerS, temperatureK),
        plant,
      };
    },
    state: () => ({
      ...hydraulics.state(),
      elapsedS: stepCount * STEP_S,
      valveOpening: hand.opening(),
      isHandTurning: hand.isTurning(),
    }),
  };
}
