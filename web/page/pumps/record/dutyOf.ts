import type { Demand } from '../../../../analysis/records/dutyRecord.ts';
import type { PumpRecord } from '../../../../analysis/records/pumpRecord.ts';
import type { Tree } from '../../forms/nested.ts';

/** The quantities of a duty that the form asks for, in SI; what is absent was left empty. */
export type TypedDuty = Readonly<Record<string, number>>;

/** The first demand of each quantity is what the form shows; the others stay as they are. */
function shownDemands(
  pump: PumpRecord | null,
): Partial<{ [Of in Demand['quantity']]: Extract<Demand, { quantity: Of }> }> {
  const demands = pump?.duty?.demands ?? [];
  const flow = demands.find((demand) => demand.quantity === 'deliveredFlow');
  // The form knows one operating point: an efficiency asked for elsewhere stays as it is.
  const efficiency = demands.find(
    (demand) =>
      demand.quantity === 'volumetricEfficiency' &&
      (flow === undefined || JSON.stringify(demand.at) === JSON.stringify(flow.at)),
  );
  const priming = demands.find((demand) => demand.quantity === 'primingTime');
  return {
    ...(flow === undefined ? {} : { deliveredFlow: flow }),
    ...(efficiency?.quantity !== 'volumetricEfficiency' ? {} : { volumetricEfficiency: efficiency }),
    ...(priming === undefined ? {} : { primingTime: priming }),
  };
}

/** What stands in the form's fields of the duty before anybody types. */
export function dutyBefore(pump: PumpRecord | null): Readonly<Record<string, number | string>> {
  const { deliveredFlow, volumetricEfficiency, primingTime } = shownDemands(pump);
  const at = deliveredFlow?.at ?? volumetricEfficiency?.at;
  return {
    ...(pump?.duty == null ? {} : { 'duty.machine': pump.duty.machine }),
    ...(at === undefined
      ? {}
      : {
          'duty.speed': at.speedRevPerS,
          'duty.pressure': at.differentialPressurePa,
          'duty.temperature': at.oilTemperatureK,
        }),
    ...(deliveredFlow === undefined
      ? {}
      : { 'duty.flow': deliveredFlow.atLeastM3PerS, 'duty.origin': deliveredFlow.origin }),
    ...(volumetricEfficiency === undefined
      ? {}
      : { 'duty.efficiency': volumetricEfficiency.atLeast, 'duty.efficiencyOrigin': volumetricEfficiency.origin }),
    ...(primingTime === undefined
      ? {}
      : {
          'duty.primingTime': primingTime.atMostS,
          'duty.lift': primingTime.staticLiftM,
          'duty.primingSpeed': primingTime.atMostSpeedRevPerS,
          'duty.wetness': primingTime.wetness,
          'duty.primingOrigin': primingTime.origin,
        }),
  };
}

/** Fields that a demand needs and that were left empty, each with the words beside it. */
export function dutyGaps(typed: TypedDuty): Readonly<Record<string, string>> {
  const needs = (names: readonly string[], by: string): readonly (readonly [string, string])[] =>
    names.filter((name) => typed[name] === undefined).map((name) => [name, `is needed for the ${by} asked for`]);
  const point = ['duty.speed', 'duty.pressure', 'duty.temperature'];
  return Object.fromEntries([
    ...(typed['duty.flow'] === undefined ? [] : needs(point, 'flow')),
    ...(typed['duty.efficiency'] === undefined ? [] : needs(point, 'efficiency')),
    ...(typed['duty.primingTime'] === undefined ? [] : needs(['duty.lift', 'duty.primingSpeed'], 'priming time')),
  ]);
}

/** The duty of the record: null where nothing is asked. */
export function dutyOf(
  typed: TypedDuty,
  words: {
    readonly machine: string;
    readonly wetness: string;
    readonly flowOrigin: string;
    readonly efficiencyOrigin: string;
    readonly primingOrigin: string;
  },
  pump: PumpRecord | null,
): Tree {
  const shown = shownDemands(pump);
  const shownIds = new Set(Object.values(shown).map(({ id }) => id));
  const kept = (pump?.duty?.demands ?? []).filter(({ id }) => !shownIds.has(id));
  const at = {
    speedRevPerS: typed['duty.speed'] ?? null,
    differentialPressurePa: typed['duty.pressure'] ?? null,
    oilTemperatureK: typed['duty.temperature'] ?? null,
  };
  const common = (demand: Demand | undefined, id: string, origin: string): Record<string, string> => ({
    id: demand?.id ?? id,
    note: demand?.note ?? '',
    origin,
  });
  const demands: Tree[] = [...kept.map((demand): Tree => ({ ...demand }))];
  if (typed['duty.flow'] !== undefined) {
    const own = common(shown.deliveredFlow, 'flow', words.flowOrigin);
    demands.push({ ...own, quantity: 'deliveredFlow', at, atLeastM3PerS: typed['duty.flow'] });
  }
  if (typed['duty.efficiency'] !== undefined) {
    const own = common(shown.volumetricEfficiency, 'efficiency', words.efficiencyOrigin);
    demands.push({ ...own, quantity: 'volumetricEfficiency', at, atLeast: typed['duty.efficiency'] });
  }
  if (typed['duty.primingTime'] !== undefined) {
    demands.push({
      ...common(shown.primingTime, 'priming', words.primingOrigin),
      quantity: 'primingTime',
      staticLiftM: typed['duty.lift'] ?? null,
      atMostSpeedRevPerS: typed['duty.primingSpeed'] ?? null,
      wetness: words.wetness,
      atMostS: typed['duty.primingTime'],
      starts: shown.primingTime?.starts ?? 1,
    });
  }
  if (demands.length === 0) return null;
  return { machine: words.machine || 'not named', demands, suction: pump?.duty?.suction ?? null };
}
