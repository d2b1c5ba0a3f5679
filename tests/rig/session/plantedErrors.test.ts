import { afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { analyseRun } from '../../../analysis/analyseRun.ts';
import { brokenPromises, coverageOf } from '../../coverage/coverage.ts';
import type { Measured, OracleHalfWidths } from '../../coverage/figures.ts';
import { oracleHalfWidths } from '../../coverage/oracleHalfWidths.ts';
import { type RecordedBench, recordHealthy } from '../../coverage/recordHealthy.ts';

/** Any seeds do; SLIPWRIGHT_SEED moves them all. */
const FIRST_SEED = Number(process.env.SLIPWRIGHT_SEED ?? 9100);
const BENCH_COUNT = 16;
const HOOK_TIMEOUT_MS = 240_000;
const STUDY_TIMEOUT_MS = 120_000;

const CHANNEL_SOURCES = '../../../analysis/calibration/channelSources.ts';
const STATE_UNCERTAINTY = '../../../analysis/uncertainty/stateUncertainty.ts';
const SLIP_LAW = '../../../analysis/delivery/slipLaw.ts';
const VOLUMETRIC_EFFICIENCY = '../../../analysis/delivery/volumetricEfficiency.ts';
const SPOKEN_OIL = '../../../analysis/efficiency/spokenOil.ts';
const MASS_BALANCE = '../../../analysis/steady/massBalance.ts';

/** Recorded once; every study analyses the same journals. */
const benches: RecordedBench[] = [];
/** Of the sound analysis: what is planted must not move the measure as well. */
const oracleBySeed = new Map<number, OracleHalfWidths>();

function knownOracle({ seed }: RecordedBench): OracleHalfWidths {
  const known = oracleBySeed.get(seed);
  if (known === undefined) throw new Error(`no oracle for seed ${seed}`);
  return known;
}

/** What the study says of the analysis as it is loaded now, planted modules included. */
async function study(): Promise<readonly string[]> {
  vi.resetModules();
  const { measureDelivery } = await import('../../coverage/measureDelivery.ts');
  const measured: readonly Measured[] = benches.map((bench) => measureDelivery(bench, knownOracle));
  return brokenPromises(coverageOf(measured));
}

beforeAll(() => {
  for (let index = 0; index < BENCH_COUNT; index += 1) {
    const bench = recordHealthy(FIRST_SEED + index, 'normal');
    const { readings, census, isPractice } = bench.decoded;
    benches.push(bench);
    const result = analyseRun({ run: bench.run, readings, census, isPractice, exclusions: [] });
    oracleBySeed.set(bench.seed, oracleHalfWidths(bench, result));
  }
}, HOOK_TIMEOUT_MS);

afterEach(() => {
  for (const path of [CHANNEL_SOURCES, STATE_UNCERTAINTY, SLIP_LAW, VOLUMETRIC_EFFICIENCY, SPOKEN_OIL, MASS_BALANCE]) {
    vi.doUnmock(path);
  }
});

describe(`the 95 % intervals of ${BENCH_COUNT} healthy practice benches (seeds from ${FIRST_SEED}, errors normal)`, () => {
  it(
    'hold the truth as often as promised, refuse few and are no wider than 1.5 times an oracle',
    async () => {
      // Judged by the binomial region of 95 %: what is rarer than one in a thousand is no chance.
      expect(await study()).toEqual([]);
    },
    STUDY_TIMEOUT_MS,
  );

  it(
    'break their promise when expanded uncertainties are halved',
    async () => {
      vi.doMock(STATE_UNCERTAINTY, async (original) => {
        const sound = await original<typeof import('../../../analysis/uncertainty/stateUncertainty.ts')>();
        return {
          stateUncertainty: (...of: Parameters<typeof sound.stateUncertainty>) => {
            const stated = sound.stateUncertainty(...of);
            return { ...stated, expandedUncertainty: stated.expandedUncertainty / 2 };
          },
        };
      });
      expect(await study()).not.toEqual([]);
    },
    STUDY_TIMEOUT_MS,
  );

  it(
    'break their promise when the gain of the flow meter is left out',
    async () => {
      vi.doMock(CHANNEL_SOURCES, async (original) => {
        const sound = await original<typeof import('../../../analysis/calibration/channelSources.ts')>();
        return {
          ...sound,
          channelSources: (...of: Parameters<typeof sound.channelSources>) =>
            sound
              .channelSources(...of)
              .map((source) => (source.id === 'flow.gain' ? { ...source, standardUncertainty: 0 } : source)),
        };
      });
      expect(await study()).toContain('capacity');
    },
    STUDY_TIMEOUT_MS,
  );

  it(
    'break their promise when calibration errors are taken to average out over a dozen holds',
    async () => {
      vi.doMock(CHANNEL_SOURCES, async (original) => {
        const sound = await original<typeof import('../../../analysis/calibration/channelSources.ts')>();
        return {
          ...sound,
          channelSources: (...of: Parameters<typeof sound.channelSources>) =>
            sound
              .channelSources(...of)
              .map((source) => ({ ...source, standardUncertainty: source.standardUncertainty / Math.sqrt(12) })),
        };
      });
      expect(await study()).toContain('capacity');
    },
    STUDY_TIMEOUT_MS,
  );

  it(
    'break their promise when the laminar slip has the wrong sign in the fit',
    async () => {
      vi.doMock(SLIP_LAW, async (original) => {
        const sound = await original<typeof import('../../../analysis/delivery/slipLaw.ts')>();
        return {
          ...sound,
          lawRegressors: (...of: Parameters<typeof sound.lawRegressors>) => {
            const regressors = sound.lawRegressors(...of);
            return { ...regressors, laminarSlipM3: -regressors.laminarSlipM3 };
          },
        };
      });
      expect(await study()).not.toEqual([]);
    },
    STUDY_TIMEOUT_MS,
  );

  // A viscosity that is off by a tenth everywhere cancels in C_l/µ; off at the duty alone it does not.
  it(
    "break their promise when the duty's oil is taken a tenth too thick",
    async () => {
      vi.doMock(SPOKEN_OIL, async (original) => {
        const sound = await original<typeof import('../../../analysis/efficiency/spokenOil.ts')>();
        return {
          ...sound,
          spokenOilState: (...of: Parameters<typeof sound.spokenOilState>) => {
            const oil = sound.spokenOilState(...of);
            const { value, sensitivities } = oil.dynamicViscosityPaS;
            return { ...oil, dynamicViscosityPaS: { value: 1.1 * value, sensitivities } };
          },
        };
      });
      expect(await study()).toContain('slip');
    },
    STUDY_TIMEOUT_MS,
  );

  it(
    'break their promise when a hold draws one per cent more than it does',
    async () => {
      vi.doMock(MASS_BALANCE, async (original) => {
        const sound = await original<typeof import('../../../analysis/steady/massBalance.ts')>();
        return {
          ...sound,
          balancedFlows: (...of: Parameters<typeof sound.balancedFlows>) => {
            const flows = sound.balancedFlows(...of);
            const { value, sensitivities } = flows.inletM3PerS;
            return { ...flows, inletM3PerS: { value: 1.01 * value, sensitivities } };
          },
        };
      });
      expect(await study()).toContain('capacity');
    },
    STUDY_TIMEOUT_MS,
  );

  it(
    'break their promise when the errors of flow and capacity add in the efficiency',
    async () => {
      // They cancel on one meter: with the wrong sign they count twice, and the interval is far too wide.
      vi.doMock(VOLUMETRIC_EFFICIENCY, async (original) => {
        const sound = await original<typeof import('../../../analysis/delivery/volumetricEfficiency.ts')>();
        return {
          volumetricEfficiency: (...[flow, capacity, speed]: Parameters<typeof sound.volumetricEfficiency>) => {
            const opposed = Object.fromEntries(Object.entries(capacity.sensitivities).map(([id, by]) => [id, -by]));
            return sound.volumetricEfficiency(flow, { ...capacity, sensitivities: opposed }, speed);
          },
        };
      });
      expect(await study()).toContain('efficiency width');
    },
    STUDY_TIMEOUT_MS,
  );
});
