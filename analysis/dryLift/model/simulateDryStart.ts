import { type BetweenSteps, integrateOnGrid } from '../../fitting/integrateOnGrid.ts';
import { integrateStiff, type StiffCourse } from '../../fitting/integrateStiff.ts';
import type { Slopes } from '../../fitting/rosenbrockStep.ts';
import { STANDARD_GRAVITY_M_PER_S2 } from '../../units.ts';
import { columnResistance } from './columnResistance.ts';
import { gasGain } from './dryPump.ts';
import { type DryStart, FULL_SHARE, requireStart } from './dryStart.ts';
import { columnHeight, type PipeTable } from './suctionPipe.ts';
import { sweptUntil } from './sweptUntil.ts';

/** Components of the course's state. */
const FILLED_M3 = 0;
export const FLOW_M3_PER_S = 1;
export const PRESSURE_PA = 2;

/** A column kept up by its foot valve comes to rest within this time [s]. */
const FOOT_VALVE_CLOSES_S = 1e-4;

/** Times since the motor start; null: not within the time watched. */
export type DryStartCourse = {
  /** Oil above the oil surface [m³], flow into the pipe [m³/s], absolute gas pressure before the gears [Pa]. */
  readonly rise: StiffCourse;
  /** From the flange through the dead volume, in the same components; null where the oil never came so far. */
  readonly chamber: StiffCourse | null;
  readonly oilAtInletS: number | null;
  readonly pumpFullS: number | null;
  readonly oilAtOutletS: number | null;
  readonly sustainedDeliveryS: number | null;
  readonly watchedForS: number;
};

/** Right-hand side of the column and the gas before the gears, in the components named above. */
function dryStartSlopes(start: DryStart, pipe: PipeTable): Slopes {
  const { atmospherePa, oil, polytropicExponent, speedRevPerS } = start;
  const resistance = columnResistance(pipe, oil);
  const weightPaPerM = oil.densityKgPerM3 * STANDARD_GRAVITY_M_PER_S2;
  const wholeM3 = pipe.volumeM3 + start.deadVolumeM3;
  return (elapsedS, state, into) => {
    const filledM3 = state[FILLED_M3] ?? Number.NaN;
    const flowM3PerS = state[FLOW_M3_PER_S] ?? Number.NaN;
    const pressurePa = state[PRESSURE_PA] ?? Number.NaN;
    const gasM3 = wholeM3 - filledM3;
    const gainPaM3PerS = gasGain(start, speedRevPerS(elapsedS), pressurePa, elapsedS);
    const drivePa = atmospherePa - pressurePa - weightPaPerM * columnHeight(pipe, filledM3);
    into[FILLED_M3] = flowM3PerS;
    into[FLOW_M3_PER_S] =
      (drivePa - resistance.dropPa(filledM3, flowM3PerS)) / resistance.inertanceKgPerM4(filledM3) -
      (start.pipe.hasFootValve && flowM3PerS < 0 ? flowM3PerS / FOOT_VALVE_CLOSES_S : 0);
    into[PRESSURE_PA] =
      gasM3 > 0 ? (polytropicExponent * (gainPaM3PerS + pressurePa * flowM3PerS)) / gasM3 : Number.NaN;
  };
}

/**
 * A dry start: gas before the gears, oil column behind it, then dead volume, pump and delivery line.
 *
 * Gas: V dp/dt = k (G + p q), V = V_pipe + V_d − w, dw/dt = q, k the exponent: energy balance of an ideal gas whose inflow is
 * as warm as itself; k = 1 is d(pV)/dt = G. Column: I(w) dq/dt = p_atm − p − ρ g h(w) − Δp(w, q), I = Σ ρ l/A over the wetted
 * pipe. Behind the flange the oil fills the dead volume without height or friction of its own; then it is swept on at V_i n.
 *
 * @param start - everything that is known before the motor turns [SI]
 * @param watchS - how long it is watched [s]
 * @param tolerance - of each step, relative [1]
 * @returns the course with its events [s, m³, m³/s, Pa]
 * @throws RangeError if the start cannot be, or if no step is accurate enough
 *
 * Source: mass balance of the gas and momentum of the column; derived here.
 */
export function simulateDryStart(start: DryStart, watchS: number, tolerance = 1e-6): DryStartCourse {
  const pipe = requireStart(start);
  const { atmospherePa, speedRevPerS } = start;
  const slopes = dryStartSlopes(start, pipe);
  const runningRevPerS = Math.max(speedRevPerS(watchS), speedRevPerS(watchS / 2), 1e-3);
  const scales = [pipe.volumeM3, start.pump.capacityM3PerRev * runningRevPerS, atmospherePa];
  const integrate = (fromS: number, from: readonly number[], untilM3: number): StiffCourse => {
    const course = integrateStiff({
      slopes,
      startTime: fromS,
      startState: from,
      scales,
      endTime: watchS,
      stopWhen: (_, state) => (state[FILLED_M3] ?? 0) - untilM3,
      tolerance,
    });
    if (course.ending === 'step too small') throw new RangeError('start: no step is accurate enough for its numbers');
    return course;
  };

  const rise = integrate(0, [0, 0, atmospherePa], pipe.volumeM3);
  const nowhere = { chamber: null, oilAtInletS: null, pumpFullS: null, oilAtOutletS: null, sustainedDeliveryS: null };
  if (rise.ending !== 'stopped') return { rise, ...nowhere, watchedForS: watchS };
  const oilAtInletS = rise.times[rise.times.length - 1] ?? Number.NaN;
  if (!(oilAtInletS < watchS)) return { rise, ...nowhere, oilAtInletS, watchedForS: watchS };
  const chamber = integrate(
    oilAtInletS,
    Array.from(rise.states[rise.states.length - 1] ?? []),
    pipe.volumeM3 + FULL_SHARE * start.deadVolumeM3,
  );
  const pumpFullS = chamber.ending === 'stopped' ? (chamber.times[chamber.times.length - 1] ?? Number.NaN) : null;
  const rest = { rise, chamber, oilAtInletS, pumpFullS, watchedForS: watchS };
  if (pumpFullS === null) return { ...rest, oilAtOutletS: null, sustainedDeliveryS: null };
  const oilAtOutletS = sweptUntil(start, pumpFullS, start.outletVolumeM3, watchS);
  const sustainedDeliveryS =
    oilAtOutletS === null ? null : sweptUntil(start, oilAtOutletS, start.deliveryLineVolumeM3, watchS);
  return { ...rest, oilAtOutletS, sustainedDeliveryS };
}

/**
 * The same start over given steps, without events: from the pipe straight on into the dead volume, and no further than
 * where that counts as full. Smooth in every number of the start.
 *
 * @param start - everything that is known before the motor turns [SI]
 * @param timesS - steps since the motor start, rising [n, s]
 * @returns its course in the components of {@link simulateDryStart} [s, m³, m³/s, Pa]
 * @throws RangeError if the start cannot be
 *
 * Source: as simulateDryStart.
 */
export function dryStartOnGrid(start: DryStart, timesS: readonly number[]): StiffCourse {
  const pipe = requireStart(start);
  const endS = timesS[timesS.length - 1] ?? 0;
  const scales = [
    pipe.volumeM3,
    start.pump.capacityM3PerRev * Math.max(start.speedRevPerS(endS), 1e-3),
    start.atmospherePa,
  ];
  const fullM3 = pipe.volumeM3 + FULL_SHARE * start.deadVolumeM3;
  const open = dryStartSlopes({ ...start, pipe: { ...start.pipe, hasFootValve: false } }, pipe);
  let isShut = false;
  const rates = new Float64Array(3);
  const slopes: Slopes = (elapsedS, state, into) => {
    open(elapsedS, state, into);
    if (isShut) into[FLOW_M3_PER_S] = 0;
  };
  const footValve: BetweenSteps = {
    beforeStep(elapsedS, state) {
      isShut = false;
      if ((state[FLOW_M3_PER_S] ?? 0) > 0) return;
      open(elapsedS, state, rates);
      isShut = (rates[FLOW_M3_PER_S] ?? 0) < 0;
    },
    afterStep(state, before) {
      if (!((state[FLOW_M3_PER_S] ?? 0) < 0)) return;
      state[FLOW_M3_PER_S] = 0;
      state[FILLED_M3] = Math.max(state[FILLED_M3] ?? Number.NaN, before[FILLED_M3] ?? Number.NaN);
    },
  };
  return integrateOnGrid(
    slopes,
    [0, 0, start.atmospherePa],
    scales,
    timesS,
    (state) => !((state[FILLED_M3] ?? Number.NaN) < fullM3),
    start.pipe.hasFootValve ? footValve : null,
  );
}
