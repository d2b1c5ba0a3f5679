import { checkedOilState } from '../../oil/checkedOilState.ts';
import type { OilState } from '../../oil/oilState.ts';
import { no, type Outcome, yes } from '../../outcome.ts';
import type { OilRecord } from '../../records/oilRecord.ts';
import type { MachineSuction } from '../../records/suctionPipe.ts';
import type { DryPumpFit } from '../fit/dryPumpFit.ts';
import { type Interval, intervalOf, type OfParameters, onScale } from '../fit/functionOfFit.ts';
import { ROUGHNESS_M } from '../fit/predictStart.ts';
import { blankOffPressure } from '../model/blankedSuction.ts';
import { liftOfPressure } from '../model/liftOfPressure.ts';
import { PRESSURE_PA, simulateDryStart } from '../model/simulateDryStart.ts';
import { pipeTable, type SuctionPipe } from '../model/suctionPipe.ts';
import { inletPressure } from './inletPressure.ts';
import { TURNS_TO_FILL_PUMP } from './primingAgainstLift.ts';
import { deliveryRate, type TimeInterval, timeInterval, WATCHED_S } from './timeInterval.ts';

/** What the model says of a start that nobody has made. */
export type MachinePrediction = {
  readonly isPrediction: true;
  readonly speedRevPerS: number;
  readonly staticLiftM: number;
  readonly oilTemperatureK: number;
  readonly barometerPa: number;
  readonly limitM: Interval;
  /** Limit less lift; an interval that reaches below zero: it may not prime. */
  readonly marginM: Interval;
  /** Motor start to delivery. */
  readonly primingTimeS: TimeInterval;
  /** Lowest absolute pressure at the inlet, while the column rises and when the pump delivers. */
  readonly lowestInletPressurePa: Interval;
  /** The limit that a person set; null: none. */
  readonly leastInletPressurePa: number | null;
  /** Against that limit; null: nobody set one. */
  readonly isAboveLeastPressure: 'yes' | 'no' | 'not proven' | null;
  readonly isOilExtrapolated: boolean;
};

export type TransferRefusal = { readonly code: string; readonly text: string };

type Machine = { readonly suction: MachineSuction; readonly oil: OilState };

const SHORTEST_SUBMERGED_M = 1e-3;

function pipeOf({ pipe }: MachineSuction): SuctionPipe {
  const segments = pipe.pieces.map(({ boreM, lengthM, riseM, fittingLossCoefficient }) => ({
    boreM: boreM.value,
    lengthM: Math.max(lengthM.value, Math.abs(riseM)),
    riseM,
    roughnessM: ROUGHNESS_M,
    fittingsLossCoefficient: fittingLossCoefficient,
  }));
  return {
    submerged: {
      boreM: segments[0]?.boreM ?? Number.NaN,
      lengthM: Math.max(SHORTEST_SUBMERGED_M, pipe.submergedLengthM),
      roughnessM: ROUGHNESS_M,
      fittingsLossCoefficient: pipe.strainerLossCoefficient,
    },
    segments,
    hasFootValve: pipe.hasFootValve,
  };
}

/** The machine with one of its numbers off by its standard uncertainty, for each of them. */
function variantsOf(machine: Machine, record: OilRecord): readonly Machine[] {
  const { suction, oil } = machine;
  const withPiece = (index: number, key: 'boreM' | 'lengthM'): MachineSuction => ({
    ...suction,
    pipe: {
      ...suction.pipe,
      pieces: suction.pipe.pieces.map((piece, at) =>
        at === index
          ? { ...piece, [key]: { ...piece[key], value: piece[key].value + piece[key].standardUncertainty } }
          : piece,
      ),
    },
  });
  const withNumber = (key: 'deadVolumeM3' | 'barometerPa'): MachineSuction => ({
    ...suction,
    [key]: { ...suction[key], value: suction[key].value + suction[key].standardUncertainty },
  });
  const thicker = oil.dynamicViscosityPaS * (1 + record.viscosityRelativeStandardUncertainty);
  const heavier = oil.densityKgPerM3 * (1 + record.densityRelativeStandardUncertainty);
  return [
    ...suction.pipe.pieces.flatMap((_, index) => [withPiece(index, 'boreM'), withPiece(index, 'lengthM')]),
    withNumber('deadVolumeM3'),
    withNumber('barometerPa'),
  ]
    .map((changed): Machine => ({ suction: changed, oil }))
    .concat([
      { suction, oil: { ...oil, dynamicViscosityPaS: thicker } },
      { suction, oil: { ...oil, densityKgPerM3: heavier } },
    ]);
}

/** What follows for a machine from the parameters of the fit. */
type OfMachine = (machine: Machine) => OfParameters;

function intervalIn(
  fit: DryPumpFit,
  machine: Machine,
  variants: readonly Machine[],
  of: OfMachine,
  moreVariance = 0,
): Interval {
  const here = of(machine)(fit.search.parameters);
  const otherVariance = variants.reduce(
    (sum, variant) => sum + (of(variant)(fit.search.parameters) - here) ** 2,
    moreVariance,
  );
  return intervalOf(fit, of(machine), { otherVariance, isDear: true });
}

/**
 * What a fitted pump will do in its machine: its pipe, lift and dead volume, its oil at cold-start temperature, its air and its
 * cranking speed, from a pump at rest to that speed at once. A prediction: the pump must be as dry as it was on the bench, and
 * the warmth of its gaps is left out.
 *
 * @param fit - of a dry pump [-]
 * @param suction - the machine's suction side [SI]
 * @param oil - the machine's oil [-]
 * @returns limit, margin, priming time and lowest inlet pressure with intervals of 95 %, or why there is none [SI]
 *
 * Source: model of ../model; errors of the machine's numbers by differences, JCGM 100:2008, 5.1.3 note 2.
 */
export function transferToMachine(
  fit: DryPumpFit,
  suction: MachineSuction,
  oil: OilRecord,
): Outcome<MachinePrediction, TransferRefusal> {
  const state = checkedOilState(oil, suction.oilTemperatureK);
  if (!state.ok) return no({ code: state.reason.code, text: state.reason.text });
  if (!(suction.deadVolumeM3.value > 0)) {
    return no({
      code: 'MACHINE_DEAD_VOLUME_ZERO',
      text: "The machine's record says that there is no gas between its pipe and the pump: estimate it and enter it.",
    });
  }
  const machine: Machine = { suction, oil: state.value };
  const { staticLiftM } = pipeTable(pipeOf(suction));
  if (!(staticLiftM > 0)) {
    return no({
      code: 'MACHINE_LIFT_ZERO',
      text: 'In the machine the oil runs to the pump by itself: there is no lift to predict.',
    });
  }
  const variants = variantsOf(machine, oil);
  const { space } = fit.search;
  const speedRevPerS = suction.crankingSpeedRevPerS;
  const runningIn = (at: Machine, parameters: readonly number[]) => ({
    pump: space.pump(parameters),
    speedRevPerS: () => speedRevPerS,
    atmospherePa: at.suction.barometerPa.value,
    deliveryPressurePa: at.suction.barometerPa.value,
    polytropicExponent: space.exponent(parameters),
  });
  const startIn = (at: Machine, parameters: readonly number[]) => {
    const running = runningIn(at, parameters);
    return simulateDryStart(
      {
        ...running,
        pipe: pipeOf(at.suction),
        deadVolumeM3: at.suction.deadVolumeM3.value,
        oil: at.oil,
        outletVolumeM3: TURNS_TO_FILL_PUMP * running.pump.capacityM3PerRev,
        deliveryLineVolumeM3: 0,
      },
      WATCHED_S,
    );
  };
  const logLimit: OfMachine = (at) => (parameters) => {
    const running = runningIn(at, parameters);
    return Math.log(
      liftOfPressure(running.atmospherePa, blankOffPressure(running, speedRevPerS), at.oil.densityKgPerM3),
    );
  };
  const rate: OfMachine = (at) => (parameters) => deliveryRate(startIn(at, parameters)).ratePerS;
  const lowestPa: OfMachine = (at) => (parameters) => {
    const { rise } = startIn(at, parameters);
    const flowM3PerS = space.pump(parameters).capacityM3PerRev * speedRevPerS;
    const deliveringPa = inletPressure(at.suction.barometerPa.value, pipeOf(at.suction), at.oil, flowM3PerS);
    return rise.states.reduce((least, point) => Math.min(least, point[PRESSURE_PA] ?? least), deliveringPa);
  };
  const spacesVariance = deliveryRate(startIn(machine, fit.search.parameters)).variance;
  const limitM = onScale(intervalIn(fit, machine, variants, logLimit), Math.exp);
  const lowestInletPressurePa = intervalIn(fit, machine, variants, lowestPa);
  return yes({
    isPrediction: true,
    speedRevPerS,
    staticLiftM,
    oilTemperatureK: suction.oilTemperatureK,
    barometerPa: suction.barometerPa.value,
    limitM,
    marginM: onScale(limitM, (limit) => limit - staticLiftM),
    primingTimeS: timeInterval(intervalIn(fit, machine, variants, rate, spacesVariance)),
    lowestInletPressurePa,
    leastInletPressurePa: suction.leastInletPressurePa,
    isAboveLeastPressure: againstLeast(lowestInletPressurePa, suction.leastInletPressurePa),
    isOilExtrapolated: state.value.isExtrapolated,
  });
}

/** Where an interval of inlet pressure stands against the limit that a person set. */
function againstLeast({ lower, upper }: Interval, leastPa: number | null): MachinePrediction['isAboveLeastPressure'] {
  if (leastPa === null) return null;
  if (lower >= leastPa) return 'yes';
  return upper < leastPa ? 'no' : 'not proven';
}
