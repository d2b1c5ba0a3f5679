import type { Demand } from '../records/dutyRecord.ts';

/**
 * Where the maker's data are lost: what may stand in for them, the best first. Each rung says what it is worth, so that
 * nobody takes a guess for a demand of the machine.
 */

/** One consumer of the oil, at its hottest and slowest. */
type Consumer = { readonly name: string; readonly flowM3PerS: number };

/** Heat that the oil must carry off. */
export type HeatLoad = {
  readonly powerW: number;
  readonly densityKgPerM3: number;
  /** Mineral oil: some 1900 to 2100, common practice, no source [J/(kg K)]. */
  readonly heatCapacityJPerKgK: number;
  /** Oil out less oil in [K]. */
  readonly temperatureRiseK: number;
};

/** What is known; null or empty: nothing. */
export type LadderInputs = {
  /** Oil that bearings, sprays and seals need, hot and slow. */
  readonly consumers: readonly Consumer[];
  readonly heat: HeatLoad | null;
  /** Flow of a sister pump or of this one before the strip, at the duty's point. */
  readonly reference: {
    readonly origin: 'sister pump' | 'as found before the strip';
    readonly flowM3PerS: number;
  } | null;
  /** V_g of the pump's own geometry, where it is computed. */
  readonly geometricVolumeM3PerRev: number | null;
  /** Priming times of this pump's own starts, alike in lift, speed and wetness. */
  readonly ownPrimingTimesS: readonly number[];
};

/** A limit that the rung proposes. */
type LadderProposal =
  | { readonly quantity: 'deliveredFlow'; readonly atLeastM3PerS: number }
  | { readonly quantity: 'capacityRatio'; readonly atLeast: number; readonly atMost: number }
  | { readonly quantity: 'primingTime'; readonly atMostS: number };

export type LadderRung = {
  readonly id: 'consumers' | 'heat' | 'reference' | 'capacity' | 'ownLift';
  readonly origin: Demand['origin'];
  readonly question: string;
  /** What a demand from this rung is worth. */
  readonly worth: string;
  /** Null: what the rung needs is not known. */
  readonly proposal: LadderProposal | null;
};

/** JB/T 7041-2006, there for nominal against no-load displacement of new gear pumps [1]. */
const CAPACITY_RATIO = { atLeast: 0.95, atMost: 1.1 };

/** Allowed over the slowest of a pump's own starts; common practice, no source [1]. */
const OWN_LIFT_FACTOR = 1.5;

/**
 * Oil that carries heat off: q = P/(ρ c ΔT).
 *
 * @param heat - power, oil and temperature rise, each > 0 [W, kg/m³, J/(kg K), K]
 * @returns flow [m³/s]
 * @throws RangeError if a number is not above zero
 *
 * Source: heat balance of a flowing liquid.
 *
 * @example coolingFlow({ powerW: 1700, densityKgPerM3: 850, heatCapacityJPerKgK: 2000, temperatureRiseK: 10 }) // 1e-4
 */
export function coolingFlow(heat: HeatLoad): number {
  for (const [name, value] of Object.entries(heat)) {
    if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${name}: ${value}, expected a number above zero`);
  }
  return heat.powerW / (heat.densityKgPerM3 * heat.heatCapacityJPerKgK * heat.temperatureRiseK);
}

function positive(name: string, value: number): number {
  if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${name}: ${value}, expected a number above zero`);
  return value;
}

function atLeast(flowM3PerS: number | null): LadderProposal | null {
  return flowM3PerS === null ? null : { quantity: 'deliveredFlow', atLeastM3PerS: flowM3PerS };
}

/**
 * The ladder of substitutes for lost maker's data, every rung in the order of its worth, with what it proposes where its
 * needs are known.
 *
 * @param inputs - what is known of machine and pump; every number > 0 [m³/s, m³/rev, s]
 * @returns five rungs with their proposals [m³/s, 1, s]
 * @throws RangeError if a number is not above zero
 *
 * Source: JB/T 7041-2006 for the capacity ratio (there nominal against no-load); own lift × 1.5 is common practice, no
 * source; the rest follows from the machine.
 */
export function demandLadder(inputs: LadderInputs): readonly LadderRung[] {
  const { consumers, heat, reference, geometricVolumeM3PerRev, ownPrimingTimesS } = inputs;
  const neededM3PerS = consumers.reduce((sum, { name, flowM3PerS }) => sum + positive(name, flowM3PerS), 0);
  if (geometricVolumeM3PerRev !== null) positive('geometricVolumeM3PerRev', geometricVolumeM3PerRev);
  const slowestS = ownPrimingTimesS.reduce((most, timeS) => Math.max(most, positive('ownPrimingTimesS', timeS)), 0);
  return [
    {
      id: 'consumers',
      origin: "machine's own calculation",
      question: 'how much oil do the consumers need, hot and slow?',
      worth: 'as good as the maker’s figure: it is what the machine lives on, if no consumer was left out',
      proposal: atLeast(consumers.length === 0 ? null : neededM3PerS),
    },
    {
      id: 'heat',
      origin: "machine's own calculation",
      question: 'how much heat must the oil carry off? q = P/(ρ c ΔT)',
      worth: 'good where losses are known; a lower bound: films and sprays may need more',
      proposal: atLeast(heat === null ? null : coolingFlow(heat)),
    },
    {
      id: 'reference',
      origin: reference?.origin ?? 'sister pump',
      question: 'what does a sister pump deliver, or what did this one before the strip?',
      worth: 'fair: it shows what the machine has lived with, not what it needs',
      proposal: atLeast(reference === null ? null : positive('reference.flowM3PerS', reference.flowM3PerS)),
    },
    {
      id: 'capacity',
      origin: 'in the manner of a standard',
      question: 'is V_i within 95 to 110 % of the volume of its geometry?',
      worth:
        'weak: tells a sound pump from a spoilt one, nothing of what the machine needs (JB/T 7041 has it for new pumps, nominal against no-load)',
      proposal: geometricVolumeM3PerRev === null ? null : { quantity: 'capacityRatio', ...CAPACITY_RATIO },
    },
    {
      id: 'ownLift',
      origin: 'house limit',
      question: 'how long did its own starts take? The slowest × 1.5',
      worth: 'weakest: a mark to notice change by, common practice, no source',
      proposal: slowestS === 0 ? null : { quantity: 'primingTime', atMostS: OWN_LIFT_FACTOR * slowestS },
    },
  ];
}
