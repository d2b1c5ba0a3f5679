import { DENSITY_LAW_LIMITS } from '../oil/density.ts';
import { viscosityLawRange } from '../oil/viscosity.ts';
import type { Outcome } from '../outcome.ts';
import { combine, exactly, type Source, type Uncertain } from '../uncertainty/source.ts';
import type { ClearanceChange, ClearanceRefusal } from './clearanceChange.ts';
import { type Beyond, beyondMeasured } from './measuredRange.ts';
import type { HeldDuty } from './slowestSpeed.ts';
import { type LawEvidence, spokenFlow } from './spokenLaw.ts';

/** How hot the oil may get; each case says what is known and no more. */
export type HottestOil =
  | {
      readonly kind: 'limit';
      readonly temperatureK: Uncertain;
      /** Of the change of the clearances at that temperature. */
      readonly sources: readonly Source[];
      readonly beyond: readonly Beyond[];
    }
  /** The duty is still met at the highest temperature at which this oil can be computed. */
  | { readonly kind: 'neverFails'; readonly upToK: number }
  /** The duty is not even met with the coldest oil looked at. */
  | { readonly kind: 'alwaysFails'; readonly fromK: number }
  /** Before the duty fails the clearances can no longer be computed: parts bind. */
  | { readonly kind: 'partsBind'; readonly atK: number; readonly reason: ClearanceRefusal };

/** Steps in which the temperature is walked up, and over which the flow is differentiated [K]. */
const STEP_K = 1;
const SLOPE_STEP_K = 0.05;
const HALVINGS = 50;

function withoutSensitivities({ law, oil, runOil, outlet }: LawEvidence): LawEvidence {
  const { uncertain } = law;
  return {
    law: {
      ...law,
      uncertain: {
        derivedCapacityM3PerRev: exactly(uncertain.derivedCapacityM3PerRev.value),
        laminarSlipM3: exactly(uncertain.laminarSlipM3.value),
        orificeSlipM2: exactly(uncertain.orificeSlipM2.value),
        speedPressureSlipM3PerPa: exactly(uncertain.speedPressureSlipM3PerPa.value),
      },
    },
    oil,
    runOil,
    outlet: outlet && {
      drain: outlet.drain && { drainCoefficientM3: exactly(outlet.drain.drainCoefficientM3.value) },
      bulkModulusPa: exactly(outlet.bulkModulusPa.value),
    },
  };
}

/** Clearances as a function of temperature: {@link clearanceChange} with its basis. */
export type ClearancesAt = (temperatureK: number) => Outcome<ClearanceChange, ClearanceRefusal>;

/**
 * How hot the oil may get before a duty fails: the temperature at which the flow of the law, thinner oil and grown
 * clearances included, comes down to what is asked.
 *
 * @param evidence - law and oils [-]
 * @param duty - pressure and flow that must be held; zero flow: the pressure alone [Pa, m³/s]
 * @param speedRevPerS - of the pump, > 0 [rev/s]
 * @param clearancesAt - change of the clearances at a temperature [1]
 * @returns the temperature with its uncertainty and whether it lies outside what was measured [K], or which case else [-]
 * @throws RangeError if the speed is not above zero
 *
 * Source: the fitted law; searched upwards from the colder of the oil's lower point and the coldest hold by steps of 1 K,
 * then halved. Uncertainty by implicit differentiation, δT = −δq/(∂q/∂T), JCGM 100:2008, 5.1.
 */
export function hottestOil(
  evidence: LawEvidence,
  duty: HeldDuty,
  speedRevPerS: number,
  clearancesAt: ClearancesAt,
): HottestOil {
  if (!(speedRevPerS > 0 && Number.isFinite(speedRevPerS))) {
    throw new RangeError(`speedRevPerS: ${speedRevPerS}, expected a number above zero`);
  }
  const { record } = evidence.oil;
  const { differentialPressurePa, atLeastM3PerS } = duty;
  const pointAt = (oilTemperatureK: number) => ({ speedRevPerS, differentialPressurePa, oilTemperatureK });
  const law = viscosityLawRange(record.lower, record.upper);
  const fromK = Math.max(
    Math.min(record.lower.temperatureK, evidence.law.range.oilTemperatureK[0]),
    law.leastK,
    DENSITY_LAW_LIMITS.leastK,
  );
  // A step short of the end: the flow is differentiated there.
  const upToK = Math.min(law.mostK, DENSITY_LAW_LIMITS.mostK) - STEP_K;

  // The search needs values alone; sensitivities are carried once, at the temperature found.
  const valuesOnly = withoutSensitivities(evidence);
  const spareM3PerS = (temperatureK: number): number | ClearanceRefusal => {
    const change = clearancesAt(temperatureK);
    if (!change.ok) return change.reason;
    const factor = exactly(change.value.factor.value);
    return spokenFlow(valuesOnly, pointAt(temperatureK), factor).value - atLeastM3PerS;
  };

  let heldK: number | null = null;
  for (let atK = fromK; ; atK = Math.min(atK + STEP_K, upToK)) {
    const spare = spareM3PerS(atK);
    if (typeof spare !== 'number') return { kind: 'partsBind', atK, reason: spare };
    if (spare < 0) {
      if (heldK === null) return { kind: 'alwaysFails', fromK };
      return limitBetween(heldK, atK);
    }
    heldK = atK;
    if (atK >= upToK) return { kind: 'neverFails', upToK };
  }

  function limitBetween(holdsK: number, failsK: number): HottestOil {
    let [low, high] = [holdsK, failsK];
    for (let halving = 0; halving < HALVINGS; halving += 1) {
      const middle = (low + high) / 2;
      const spare = spareM3PerS(middle);
      if (typeof spare !== 'number') return { kind: 'partsBind', atK: middle, reason: spare };
      if (spare >= 0) low = middle;
      else high = middle;
    }
    const [below, above] = [spareM3PerS(low - SLOPE_STEP_K), spareM3PerS(low + SLOPE_STEP_K)];
    const change = clearancesAt(low);
    if (!change.ok) return { kind: 'partsBind', atK: low, reason: change.reason };
    if (typeof below !== 'number') return { kind: 'partsBind', atK: low - SLOPE_STEP_K, reason: below };
    if (typeof above !== 'number') return { kind: 'partsBind', atK: low + SLOPE_STEP_K, reason: above };
    const slopeM3PerSPerK = (above - below) / (2 * SLOPE_STEP_K);
    const flow = spokenFlow(evidence, pointAt(low), change.value.factor);
    return {
      kind: 'limit',
      temperatureK: combine(low, [{ input: flow, derivative: -1 / slopeM3PerSPerK }]),
      sources: change.value.sources,
      beyond: beyondMeasured(evidence, pointAt(low)),
    };
  }
}
