import type { RunRecord } from '../../analysis/records/runRecord.ts';
import type { StripSheet } from '../../analysis/records/stripSheet.ts';
import type { Archive } from '../archive/openArchive.ts';

/**
 * The strip sheet that speaks for a pump as it is run: the latest measured as found for a run as found, else the latest
 * measured as rebuilt; null where there is none.
 */
export function stripSheetFor(archive: Archive, pumpId: string, label: RunRecord['label']): StripSheet | null {
  const occasion = label === 'as found' ? 'as found' : 'as rebuilt';
  const sheets = archive.listStrips().filter((sheet) => sheet.pumpId === pumpId && sheet.occasion === occasion);
  return sheets.sort((a, b) => a.measuredOn.localeCompare(b.measuredOn)).at(-1) ?? null;
}
