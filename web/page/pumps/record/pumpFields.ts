import type { AskedQuantity } from '../../forms/askedQuantity.ts';

/** What a form asks of a pump besides its geometry; names are paths of the record, or of the form's own demands. */

export const RUNNING_FIELDS: readonly AskedQuantity[] = [
  { name: 'speedRangeRevPerS.min', label: 'slowest speed', quantity: 'speed', atLeast: 0 },
  { name: 'speedRangeRevPerS.max', label: 'fastest speed', quantity: 'speed', above: 0 },
];

export const RELIEF_FIELD: AskedQuantity = {
  name: 'reliefValveSettingPa',
  label: 'relief valve opens at, difference (empty: none or not known)',
  quantity: 'pressure',
  isDifference: true,
  above: 0,
  isOptional: true,
};

/** Where flow and efficiency are asked for. */
export const DUTY_POINT_FIELDS: readonly AskedQuantity[] = [
  { name: 'duty.speed', label: 'at this speed', quantity: 'speed', above: 0, isOptional: true },
  {
    name: 'duty.pressure',
    label: 'against this pressure difference',
    quantity: 'pressure',
    isDifference: true,
    atLeast: 0,
    isOptional: true,
  },
  { name: 'duty.temperature', label: 'with oil at', quantity: 'temperature', above: 0, isOptional: true },
];

export const FLOW_FIELD: AskedQuantity = {
  name: 'duty.flow',
  label: 'flow, at least',
  quantity: 'flow',
  above: 0,
  isOptional: true,
};

export const EFFICIENCY_FIELD: AskedQuantity = {
  name: 'duty.efficiency',
  label: 'volumetric efficiency, at least',
  quantity: 'ratio',
  above: 0,
  atMost: 1,
  isOptional: true,
};

export const PRIMING_FIELDS: readonly AskedQuantity[] = [
  { name: 'duty.primingTime', label: 'oil arrives from dry within', quantity: 'time', above: 0, isOptional: true },
  {
    name: 'duty.lift',
    label: 'from so far below',
    quantity: 'length',
    symbols: { metric: 'm', US: 'ft' },
    above: 0,
    isOptional: true,
  },
  { name: 'duty.primingSpeed', label: 'at this speed or less', quantity: 'speed', above: 0, isOptional: true },
];

/** All that is asked of the duty. */
export const DUTY_FIELDS_ASKED: readonly AskedQuantity[] = [
  ...DUTY_POINT_FIELDS,
  FLOW_FIELD,
  EFFICIENCY_FIELD,
  ...PRIMING_FIELDS,
];
