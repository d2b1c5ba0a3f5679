import type { BenchChannel } from '../records/benchRecord.ts';
import { combine, type Uncertain } from '../uncertainty/source.ts';

type Ratio = {
  readonly ratio: number;
  /** ∂ratio/∂ν; zero beyond the table, where the ratio is held [s/m²]. */
  readonly perM2PerS: number;
};

/** Id of the error of a meter's K-factor table, relative. */
export function kFactorSourceId(channel: BenchChannel): string {
  return `${channel.channel}.kFactor`;
}

function ratioAt(channel: BenchChannel, kinematicViscosityM2PerS: number): Ratio {
  if (!(kinematicViscosityM2PerS > 0 && Number.isFinite(kinematicViscosityM2PerS))) {
    throw new RangeError(`kinematicViscosity: ${kinematicViscosityM2PerS}, expected a number above zero`);
  }
  const table = channel.kFactor?.table ?? [];
  const first = table[0];
  const last = table[table.length - 1];
  if (first === undefined || last === undefined) return { ratio: 1, perM2PerS: 0 };
  if (kinematicViscosityM2PerS <= first.kinematicViscosityM2PerS) return { ratio: first.ratio, perM2PerS: 0 };
  const upperAt = table.findIndex((point) => point.kinematicViscosityM2PerS > kinematicViscosityM2PerS);
  const lower = table[upperAt - 1];
  const upper = table[upperAt];
  if (lower === undefined || upper === undefined) return { ratio: last.ratio, perM2PerS: 0 };
  const slope = (upper.ratio - lower.ratio) / Math.log(upper.kinematicViscosityM2PerS / lower.kinematicViscosityM2PerS);
  return {
    ratio: lower.ratio + slope * Math.log(kinematicViscosityM2PerS / lower.kinematicViscosityM2PerS),
    perM2PerS: slope / kinematicViscosityM2PerS,
  };
}

/**
 * Whether an oil is thinner or thicker than the meter's table reaches. The ratio is then held at the table's end, and what is
 * printed must say so: the meter may well be off by more than its stated uncertainty there.
 *
 * @param channel - flow channel of the bench record [-]
 * @param kinematicViscosityM2PerS - of the oil at the meter [m²/s]
 * @returns true beyond the table; false within it, and where the channel has none [-]
 */
export function isBeyondKFactorTable(channel: BenchChannel, kinematicViscosityM2PerS: number): boolean {
  const { kFactor } = channel;
  if (kFactor === null) return false;
  const viscosities = kFactor.table.map((point) => point.kinematicViscosityM2PerS);
  return kinematicViscosityM2PerS < Math.min(...viscosities) || kinematicViscosityM2PerS > Math.max(...viscosities);
}

/**
 * Flow freed of the meter's dependence on viscosity. A meter gives pulses = K(ν) × volume, and its signal was scaled with one
 * K₀: indicated = true × r(ν), r = K(ν)/K₀, so true = indicated / r(ν). Between the points of the table r is a straight
 * line in ln ν; beyond them it is held at the end ({@link isBeyondKFactorTable}).
 *
 * @param flow - indicated flow, any sign [m³/s]
 * @param channel - its channel; one without a table leaves the flow as it is [-]
 * @param kinematicViscosity - of the oil at the meter, > 0 [m²/s]
 * @returns the flow with its sensitivities to `<channel>.kFactor` (relative) and to all that the viscosity rests on [m³/s]
 * @throws RangeError if the viscosity is not a number above zero
 *
 * Source: definition of the K-factor; straight lines in ln ν are common practice, no source. Derivatives derived here:
 * ∂true/∂(relative error of r) = −true, ∂true/∂ν = −true r′/r.
 */
export function correctedByKFactor(flow: Uncertain, channel: BenchChannel, kinematicViscosity: Uncertain): Uncertain {
  if (channel.kFactor === null) return flow;
  const { ratio, perM2PerS } = ratioAt(channel, kinematicViscosity.value);
  const trueFlowM3PerS = flow.value / ratio;
  return combine(trueFlowM3PerS, [
    { input: flow, derivative: 1 / ratio },
    { input: kinematicViscosity, derivative: (-trueFlowM3PerS * perM2PerS) / ratio },
    { input: { value: 0, sensitivities: { [kFactorSourceId(channel)]: 1 } }, derivative: -trueFlowM3PerS },
  ]);
}
