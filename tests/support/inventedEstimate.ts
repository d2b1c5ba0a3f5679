import type { DryLiftEstimateResult } from '../../analysis/resultSchema/dryLiftSchema.ts';
import type { Stated } from '../../analysis/uncertainty/stated.ts';

const STATED: Stated = {
  value: 5.9,
  standardUncertainty: 0.9,
  degreesOfFreedom: null,
  coverageFactor: 1.96,
  expandedUncertainty: 1.764,
  budget: [],
};

const TIMES_S = Array.from({ length: 87 }, (_, index) => 4.02 + 0.05 * index);

/** An invented estimate of a start at 4.02 s whose column stands at 0.45 m after 4.3 s. */
export const INVENTED_ESTIMATE: DryLiftEstimateResult = {
  capacityBasis: 'geometry',
  gapConstantM3PerSPerPa: { value: 1.17e-9, lower: 7.6e-10, upper: 1.69e-9 },
  deadVolumeM3: { value: 5.7e-5, lower: 3.8e-5, upper: 8.6e-5 },
  carryOverShare: { value: 0.01, lower: 0.0014, upper: 0.073 },
  gapChange: { verdict: 'undecided', startRatio: null },
  identified: { leakBack: 'told', deadVolume: 'from its range', carryOver: 'from its range' },
  search: { hasConverged: true, iterations: 8, startCount: 5, readingCount: 130, noiseFactor: 1 },
  starts: [
    {
      kind: 'lift',
      motorStartS: 4.02,
      speedRevPerS: 9.98,
      fittedUntilS: 8.1,
      course: {
        elapsedS: TIMES_S,
        suctionPressurePa: TIMES_S.map((timeS) => 101_325 - (3832 * (timeS - 4.02)) / 4.3),
        columnHeightM: TIMES_S.map((timeS) => (0.45 * (timeS - 4.02)) / 4.3),
      },
    },
  ],
  limits: [
    {
      speedRevPerS: 9.98,
      limitM: { value: 5.949, lower: 4.161, upper: 8.164 },
      limitBudgetM: STATED,
      blankOffPressurePa: { value: 51_386, lower: 32_762, upper: 67_118 },
    },
  ],
  machine: null,
  warnings: [],
};
