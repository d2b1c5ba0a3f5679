import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { analyseRun } from '../../../analysis/analyseRun.ts';
import type { Readings } from '../../../analysis/readings.ts';
import type { RunRecord } from '../../../analysis/records/runRecord.ts';
import type { RunResult } from '../../../analysis/result.ts';
import { resultJsonSchema } from '../../../analysis/resultSchema/resultJsonSchema.ts';
import { inventedRun } from '../../support/inventedRun.ts';
import { sampledReadings } from '../../support/readings.ts';
import { censusOf, steppedReadings } from '../../support/steppedRun.ts';

const PUBLISHED = new URL('../../../samples/schemas/result.schema.json', import.meta.url);

// The pattern of an instant stands in the schema beside its format.
const isValid = new Ajv2020({ allErrors: true, formats: { 'date-time': true } }).compile(resultJsonSchema());

function resultOf(run: RunRecord, readings: Readings): RunResult {
  return analyseRun({ run, readings, census: censusOf(readings), isPractice: false, exclusions: [] });
}

/** The result as a reader of the file has it. */
function asJson(result: RunResult): unknown {
  return JSON.parse(JSON.stringify(result));
}

const DRY = sampledReadings(14, 20, {
  speed: (timeS) => (timeS < 1 ? 0 : 10),
  flow: (timeS) => (timeS < 3 ? 0 : 1.4e-4),
});

/** Flow is lost as the suction is throttled, two thousandths a kilopascal, in five steps of 10 s. */
const THROTTLED = sampledReadings(50, 20, {
  speed: () => 15,
  deliveryPressure: () => 201325,
  suctionPressure: (timeS) => 96000 - 10000 * Math.floor(timeS / 10),
  flow: (timeS) => 2e-4 * (1 - 0.02 * Math.floor(timeS / 10)),
  oilTemperature: () => 318.15,
});

describe('the JSON Schema of a result', () => {
  it('is the published one: samples/schemas/result.schema.json', () => {
    expect(JSON.parse(readFileSync(PUBLISHED, 'utf8'))).toEqual(resultJsonSchema());
  });

  it.each([
    ['a delivery run', 'delivery', steppedReadings()],
    ['a delivery run in which nothing was held', 'delivery', DRY],
    ['a dry start', 'dryLift', DRY],
    ['a suction run', 'suction', THROTTLED],
    ['a suction run that says nothing', 'suction', DRY],
    ['a relief run that says nothing', 'relief', steppedReadings()],
    ['a blanked run that was not blanked', 'blanked', DRY],
  ] as const)('allows the result of %s', (_title, kind, readings) => {
    isValid(asJson(resultOf(inventedRun(kind), readings)));
    expect(isValid.errors).toBeNull();
  });

  it('refuses a value without its uncertainty, and a key that it does not know', () => {
    const result = resultOf(inventedRun('delivery'), steppedReadings());
    const { sweptVolumeM3PerRev } = result.theory;
    const bare = { value: sweptVolumeM3PerRev.value };
    expect(isValid(asJson(result))).toBe(true);
    expect(isValid({ ...result, theory: { ...result.theory, sweptVolumeM3PerRev: bare } })).toBe(false);
    expect(isValid({ ...result, mood: 'good' })).toBe(false);
  });

  it('names the unit in every key that holds a number, unless it is a count, a share or speaks of another key', () => {
    const keys = numberKeys(resultJsonSchema());
    expect(keys).toContain('flowM3PerS');
    expect(keys.filter((key) => !UNIT.test(key) && !WITHOUT_UNIT.has(key))).toEqual([]);
  });
});

const UNIT =
  /(M3PerRev|M3PerS|M3PerSPerPa|M3PerPa|M3|M2PerS|M2|RevPerS|PaS|Pa|KgPerM3|NM|W|K|M|S|Efficiency|Efficiencies)$/;

/** Counts, numbers of things, and ratios [1]; members of a value whose own key has the unit; a drift is in its channel's. */
const WITHOUT_UNIT = new Set([
  ...['number', 'holdNumber', 'readingCount', 'effectiveReadingCount', 'wildReadingCount', 'holdCount', 'lineCount'],
  ...['noteCount', 'badLineCounts', 'lostReadingCount', 'reconnectCount', 'starts', 'referenceHoldNumber'],
  ...['holdNumbers', 'unusedHoldNumbers', 'holdNumbersBeyond', 'firstHoldNumber', 'repeatHoldNumber', 'withoutPlace'],
  ...['clearerHoldNumber', 'fromBelowHoldNumber', 'fromAboveHoldNumber', 'withoutPressure'],
  ...[
    'value',
    'standardUncertainty',
    'expandedUncertainty',
    'contribution',
    'change',
    'values',
    'expandedUncertainties',
  ],
  ...['measured', 'expected', 'difference', 'before', 'after', 'calibrationPart', 'sensitivities', 'against'],
  ...['degreesOfFreedom', 'coverageFactor', 'share', 'ratio', 'leverage', 'studentisedResidual', 'aicc', 'delta'],
  ...['akaikeWeight', 'chiSquare', 'fRatio', 'probability', 'reducedChiSquare', 'flowRipple', 'capacityRatio'],
  ...['scatterDegreesOfFreedom', 'lackDegreesOfFreedom', 'repeatDegreesOfFreedom', 'residualDegreesOfFreedom'],
  ...['conformityProbability', 'chanceProbability', 'lostShare', 'lostShareStandardUncertainty', 'lost', 'shift'],
  ...['largestFall', 'uncertaintyRatio', 'weight', 'speedNumber', 'slipNumber', 'limit', 'deviation', 'predictedDrag'],
  ...['atLeast', 'atMost', 'trials', 'seed', 'failedTrials', 'mean', 'standardDeviation', 'symmetricInterval'],
  ...['shortestInterval', 'endStandardErrors', 'byPropagation', 'differences', 'tolerance'],
  ...['lower', 'upper', 'carryOverShare', 'startRatio', 'iterations', 'startCount', 'noiseFactor'],
  // The same as a neighbour whose key has the unit, with its sensitivities.
  ...['sweptVolume', 'uncertain'],
]);

const node: z.ZodType<Record<string, unknown>> = z.record(z.string(), z.unknown());

/** Keys under which the schema has a number, a list of them, or a stated value. */
function numberKeys(schema: Record<string, unknown>): readonly string[] {
  const keys = new Set<string>();
  const holdsNumber = (entry: unknown): boolean => {
    const of = node.safeParse(entry);
    if (!of.success) return false;
    const { type, $ref, items, prefixItems, anyOf, additionalProperties } = of.data;
    if (type === 'number' || type === 'integer') return true;
    if ($ref === '#/$defs/Stated' || $ref === '#/$defs/Uncertain') return true;
    return [items, additionalProperties, ...listOf(prefixItems), ...listOf(anyOf)].some(holdsNumber);
  };
  const walk = (entry: unknown): void => {
    if (Array.isArray(entry)) entry.forEach(walk);
    const of = node.safeParse(entry);
    if (!of.success) return;
    const { properties } = of.data;
    const named = node.safeParse(properties);
    if (named.success) {
      for (const [key, value] of Object.entries(named.data)) if (holdsNumber(value)) keys.add(key);
    }
    Object.values(of.data).forEach(walk);
  };
  walk(schema);
  return [...keys];
}

function listOf(entry: unknown): readonly unknown[] {
  return Array.isArray(entry) ? entry : [];
}
