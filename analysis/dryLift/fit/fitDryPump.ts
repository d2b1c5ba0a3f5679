import { no, type Outcome, yes } from '../../outcome.ts';
import { combine, type Source, sourceTable, type Uncertain } from '../../uncertainty/source.ts';
import { stateUncertainty } from '../../uncertainty/stateUncertainty.ts';
import type { DryFitInput } from './dryFitInput.ts';
import type { DryFitRefusal, DryFitWarning } from './dryFitRefusal.ts';
import type { DryPumpFit } from './dryPumpFit.ts';
import type { FitProblem } from './fitSpace.ts';
import { fitWarnings } from './fitWarnings.ts';
import { fitAndTestGap } from './gapChangeTest.ts';
import type { PreparedStart } from './measuredStart.ts';
import { leakProfile } from './profile.ts';

/** A suction that falls by less is none: a tenth of a metre of oil is 850 Pa [Pa]. */
const LEAST_FALL_PA = 200;

/** Scatter about the model, over the noise, from which nothing that is fitted means anything: common practice, no source [1]. */
const MISFIT_THAT_REFUSES = 2.5;

const MOST_ITERATIONS = 60;

const COMMON = { kind: 'calibration', degreesOfFreedom: null, shape: 'normal', pooledAs: null } as const;

/** Tip drag carries oil and no gas, and spaces fill otherwise with gas than with oil: common practice, no source. */
const GAS_FOR_OIL: Source = {
  ...COMMON,
  id: 'dryPump.gasFilling',
  label: 'capacity for gas in place of that for oil',
  standardUncertainty: 0.005,
};

/** Wear, make and tip drag make V_i of V_g: common practice, no source. */
const GEOMETRY_FOR_CAPACITY: Source = {
  ...COMMON,
  id: 'dryPump.capacityFromGeometry',
  label: 'swept volume in place of derived capacity',
  standardUncertainty: 0.005,
};

/** Sources that the capacity gains by its use for gas. */
function capacitySources({ basis }: DryFitInput['capacity']): readonly Source[] {
  return basis === 'derived' ? [GAS_FOR_OIL] : [GAS_FOR_OIL, GEOMETRY_FOR_CAPACITY];
}

function capacityOf(capacity: DryFitInput['capacity']): Uncertain {
  const { m3PerRev } = capacity;
  const relative = capacitySources(capacity).map(({ id }) => ({
    input: { value: 0, sensitivities: { [id]: m3PerRev.value } },
    derivative: 1,
  }));
  return combine(m3PerRev.value, [{ input: m3PerRev, derivative: 1 }, ...relative]);
}

/** Sources that several starts name alike are one and the same. */
function united(lists: readonly (readonly Source[])[]): readonly Source[] {
  return [...new Map(lists.flat().map((source) => [source.id, source])).values()];
}

function hasSuction({ start }: PreparedStart): boolean {
  const lowestPa = Math.min(...start.pressuresPa.map(({ value }) => value));
  const highestPa = Math.max(...start.pressuresPa.map(({ value }) => value));
  const noisePa = Math.max(...start.standardDeviationsPa);
  return highestPa - lowestPa > LEAST_FALL_PA + 4 * noisePa;
}

function contradictionOf(prepared: readonly PreparedStart[], sources: readonly Source[]): DryFitWarning[] {
  const table = sourceTable(sources);
  for (const { restDifferencePa } of prepared) {
    if (restDifferencePa === null) continue;
    const { value, standardUncertainty } = stateUncertainty(restDifferencePa, table);
    if (Math.abs(value) > 3 * standardUncertainty) {
      return [
        {
          code: 'BAROMETER_CONTRADICTS_SUCTION',
          text: `At rest the suction channel stood ${value.toFixed(0)} Pa from the barometer, three times what the two allow (${standardUncertainty.toFixed(0)} Pa): read the barometer again, or see whether the pipe was vented.`,
        },
      ];
    }
  }
  return [];
}

/**
 * Leak-back and dead volume of a dry pump from the suction of one start or several, with everything that was measured or
 * stated as an error of its own.
 *
 * @param input - prepared starts, capacity, sources [SI]
 * @returns the fit with its profile, warnings and sources, or why there is none [-]
 * @throws RangeError if no start is given, or an input names a source that is not there
 *
 * Source: model of ../model; method as fitUnknowns and leakProfile.
 */
export function fitDryPump(input: DryFitInput): Outcome<DryPumpFit, DryFitRefusal> {
  const { prepared } = input;
  const first = prepared[0];
  if (first === undefined) throw new RangeError('prepared: no start given');
  if (!prepared.every(hasSuction)) {
    return no({
      code: 'NO_SUCTION',
      text: 'The suction hardly fell: nothing can be said of leak-back. See that the shaft drives the gears, and in the right direction.',
    });
  }
  const stated = united([input.sources, ...prepared.map(({ sources }) => sources), capacitySources(input.capacity)]);
  const problem: FitProblem = {
    starts: prepared.map(({ start }) => start),
    capacityM3PerRev: capacityOf(input.capacity),
    speedScale: first.speedScale,
    deadVolume: first.deadVolume,
    sources: sourceTable(stated),
    mayGapChange: false,
    mostIterations: input.mostIterations ?? MOST_ITERATIONS,
    known: input.known ?? null,
  };
  const chosen = fitAndTestGap(problem);
  if (chosen !== null && chosen.fit.noiseFactor > MISFIT_THAT_REFUSES) {
    return no({
      code: 'NOT_A_DRY_START',
      text: `The suction lies ${chosen.fit.noiseFactor.toFixed(1)} times as far from any dry start as its noise: oil came earlier than was found, the pump was wet, or the suction side is not as the set-up says.`,
    });
  }
  if (chosen === null || !chosen.fit.hasConverged) {
    return no({
      code: 'DID_NOT_CONVERGE',
      text: 'No leak-back could be found that the search agreed on: look at the suction curve, it is not that of a dry start.',
    });
  }
  const search = chosen.fit;
  const noise = problem.starts.map(({ id, timesS }) => ({
    noiseSourceId: `${id}.suctionNoise`,
    readingCount: timesS.length,
  }));
  const noiseSources = noise.map(
    ({ noiseSourceId, readingCount }): Source => ({
      id: noiseSourceId,
      label: 'noise of the suction readings',
      kind: 'random',
      standardUncertainty: 1,
      degreesOfFreedom: Math.max(1, readingCount - 2),
      shape: 'normal',
      pooledAs: null,
    }),
  );
  return yes({
    problem: chosen.problem,
    search,
    profile: leakProfile(search),
    gapChange: chosen.verdict,
    noise,
    sources: united([stated, search.space.ownSources, noiseSources]),
    warnings: [...contradictionOf(prepared, stated), ...fitWarnings(input, search, chosen.verdict)],
  });
}
