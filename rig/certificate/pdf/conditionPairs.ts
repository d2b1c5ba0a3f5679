import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import type { CertificateConditions } from '../../../analysis/certificate/testedSchema.ts';
import { plain, withUncertainty } from './printed.ts';
import { runList } from './runList.ts';

type Pair = readonly [string, string];

/** Each wetness class is a procedure; the words are the workshop's own for any reader. */
const WETNESS_WORDS = {
  W0: 'W0: washed with solvent, blown out, dried',
  W1: 'W1: oiled at assembly with a measured dose, turned by hand',
  W2: 'W2: run, then drained for a stated time',
  W3: 'W3: packed with grease; proves no unaided lift',
} as const;

function oilInWords({ oil }: CertificateConditions): string {
  const at = ({ temperatureK, kinematicViscosityM2PerS }: typeof oil.lower) =>
    `${plain(kinematicViscosityM2PerS, 'mm2/s', 4)} at ${plain(temperatureK, 'degC', 3)}`;
  const basis = oil.viscosityBasis === 'measured' ? 'measured' : 'by the grade on the can';
  const uPercent = (200 * oil.viscosityRelativeStandardUncertainty).toFixed(1);
  return `${at(oil.lower)}, ${at(oil.upper)}, ${basis} (U = ${uPercent} %); ${plain(oil.densityAt15CKgPerM3, 'kg/m3', 4)} at 15 °C. Sold as: ${oil.name}`;
}

/** Runs under the same oil and set-up are told together. */
function alike(conditions: readonly CertificateConditions[]): readonly (readonly CertificateConditions[])[] {
  const groups = new Map<string, CertificateConditions[]>();
  for (const entry of conditions) {
    const key = JSON.stringify([entry.oil, entry.setUp]);
    groups.set(key, [...(groups.get(key) ?? []), entry]);
  }
  return [...groups.values()];
}

function rite({ wetness, wetting }: CertificateConditions['setUp']): string {
  const figures = [
    wetting?.doseM3 ? `dose ${plain(wetting.doseM3, 'cm3', 2)}` : '',
    wetting?.turnsByHand ? `${wetting.turnsByHand} turns by hand` : '',
    wetting?.standingTimeS ? `left to stand ${plain(wetting.standingTimeS, 's', 3)}` : '',
  ].filter((text) => text !== '');
  return [WETNESS_WORDS[wetness], ...(figures.length === 0 ? ['figures not stated'] : figures)].join('; ');
}

function pairsOf(runs: readonly CertificateConditions[], hasRuns: boolean): readonly Pair[] {
  const [conditions] = runs;
  if (conditions === undefined) return [];
  const { setUp } = conditions;
  const twice = (measured: typeof setUp.staticLiftM) => ({
    value: measured.value,
    expandedUncertainty: 2 * measured.standardUncertainty,
  });
  const inlet = runs.flatMap(({ runId, oilTemperatureK }): readonly Pair[] => {
    if (oilTemperatureK === null) return [];
    const { lowest, highest } = oilTemperatureK;
    return [
      ['Oil at the inlet', `${plain(lowest, 'degC', 3)} to ${plain(highest, 'degC', 3)} in the holds of ${runId}`],
    ];
  });
  return [
    ...(hasRuns ? [[runs.length === 1 ? 'Run' : 'Runs', runList(runs.map(({ runId }) => runId))] as const] : []),
    ['Oil', oilInWords(conditions)],
    ...inlet,
    ['Barometer', withUncertainty(twice(setUp.barometerPa), 'mbar(a)', 'mbar')],
    ['Static lift', withUncertainty(twice(setUp.staticLiftM), 'm')],
    [
      'Suction pipe',
      `bore ${plain(setUp.suctionPipeBoreM, 'mm', 3)}, length ${plain(setUp.suctionPipeLengthM, 'm', 3)}, gas behind it ${plain(setUp.deadVolumeM3, 'cm3', 3)}`,
    ],
    ['Wetness class', rite(setUp)],
  ];
}

/** Oil, air, lift, pipe and wetness of every run; what was told before is not told again. */
export function conditionPairs({ conditions }: CertificateData): readonly Pair[] {
  const groups = alike(conditions);
  const told = new Set<string>();
  return groups.flatMap((runs, index) => {
    const pairs = pairsOf(runs, groups.length > 1);
    const others = pairs.filter(([name, value], row) => row === 0 || !told.has(`${name}: ${value}`));
    for (const [name, value] of pairs) told.add(`${name}: ${value}`);
    const [first, ...further] = others;
    if (index === 0 || first === undefined || others.length === pairs.length) return others;
    return [[first[0], `${first[1]}; as above, but`] as const, ...further];
  });
}
