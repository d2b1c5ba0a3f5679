import { siFrom, unitOf } from '../../analysis/units.ts';
import { type Command, readCommand } from './command.ts';
import { createHydraulics, type TrueState } from './hydraulics.ts';
import type { PracticeTruth } from './practiceTruth.ts';
import { createPrimingWatch } from './primingWatch.ts';
import { buildPump, derivedCapacityM3PerRev, laminarSlipM3, type PracticeScenario } from './pumpTruth.ts';
import { createRandom } from './random.ts';
import { createSensor, PRACTICE_SENSORS, type PracticeSensor } from './sensors.ts';
import { noteSentence, readingSentence } from './sentence.ts';
import { PRACTICE_SET_UP, type PracticeSetUp } from './setUp.ts';
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

const TRUE_VALUE: Readonly<Record<PracticeSensor['channel'], (state: TrueState) => number>> = {
  suctionPressure: (state) => state.suctionPressurePa,
  deliveryPressure: (state) => state.deliveryPressurePa,
  flow: (state) => state.meterFlowM3PerS,
  speed: (state) => state.speedRevPerS,
  oilTemperature: (state) => state.oilTemperatureK,
};

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
  if (!Number.isSafeInteger(seed)) throw new RangeError(`seed: expected a whole number, got ${seed}`);
  if (!(readingsPerS >= 1 && readingsPerS <= STEPS_PER_S)) {
    throw new RangeError(`readingsPerS: expected 1 to ${STEPS_PER_S}, got ${readingsPerS}`);
  }
  if (!(speedUp >= 0.1 && speedUp <= 100)) throw new RangeError(`speedUp: expected 0.1 to 100, got ${speedUp}`);

  const pump = buildPump(scenario, createRandom(seed, PUMP_STREAM));
  const hydraulics = createHydraulics(pump, setUp, oilTemperatureK);
  const hand = createValveHand();
  const priming = createPrimingWatch(pump.sweptVolumeM3PerRev);
  const build = createRandom(seed, SENSOR_STREAM);
  const noise = createRandom(seed, NOISE_STREAM);
  const sensors = PRACTICE_SENSORS.map((sensor) => {
    const follows = TRUE_VALUE[sensor.channel];
    const conditions = { barometerPa: setUp.barometerPa, stepS: STEP_S, startSi: follows(hydraulics.state()) };
    return { follows, ...createSensor(sensor, conditions, build, noise) };
  });
  const stepsPerGreeting = Math.round(STEPS_PER_S * speedUp);
  const greeting = noteSentence(`slipwright practice bench, speed-up ${speedUp}`);

  let askedS = 0;
  let stepCount = 0;
  let readingCount = 0;
  let commandedRevPerS = 0;
  let due: string[] = [greeting];

  const fromUnit = (value: number, symbol: string): number => siFrom(value, unitOf(symbol), setUp.barometerPa);

  function obey(command: Command): void {
    switch (command.kind) {
      case 'speed':
        commandedRevPerS = fromUnit(command.speedRPerMin, 'r/min');
        break;
      case 'valve':
        hand.setOpening(command.opening);
        break;
      case 'pressure':
        hand.seekGauge(fromUnit(command.gaugeBar, 'bar(g)') - setUp.barometerPa);
        break;
      case 'oil':
        hydraulics.setOilTemperature(fromUnit(command.temperatureC, 'degC'));
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
    hydraulics.advance({ speedRevPerS: commandedRevPerS, valveOpening: hand.opening() }, STEP_S);
    stepCount += 1;
    const state = hydraulics.state();
    hand.advance(state.deliveryPressurePa - setUp.barometerPa, state.isLineFull && state.speedRevPerS > 0.5, STEP_S);
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
