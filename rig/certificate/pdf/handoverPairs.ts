import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import { plain } from './printed.ts';

const NOT_STATED = 'not stated';

function coverWords(isSealedAsTested: boolean | null): string {
  if (isSealedAsTested === null) return NOT_STATED;
  return isSealedAsTested
    ? 'those it was tested with go into the machine'
    : 'others go into the machine: end float, slip and dry lift may differ';
}

/** What the pump is like on the day it is sealed; what nobody stated says so. */
export function handoverPairs({ pump, handover, asBuilt }: CertificateData): (readonly [string, string])[] {
  const wetting = asBuilt.at(-1)?.stripSheet.wetting;
  const relief = pump.reliefValveSettingPa;
  const time = handover?.runInTimeS ?? null;
  const remarks = [handover?.remarks ?? '', pump.remarks].filter((text) => text !== '').join(' ');
  return [
    ['Cover and gasket', coverWords(handover?.isSealedAsTested ?? null)],
    [
      'Relief valve',
      relief === null
        ? 'setting not stated, or none'
        : `opens at ${plain(relief, 'bar(a)', 3).replace('(a)', '')} difference`,
    ],
    ['Run in for', time === null ? NOT_STATED : plain(time, 'h', 2)],
    ['Oiled at assembly', wetting === undefined ? NOT_STATED : wetting.how],
    ['Preservative', (handover?.preservative ?? '') === '' ? NOT_STATED : (handover?.preservative ?? '')],
    ['Remarks', remarks === '' ? 'none' : remarks],
  ];
}
