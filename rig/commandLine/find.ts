import { type FoundPage, findCriteria } from '../archive/findCriteria.ts';
import type { FoundEntry } from '../archive/indexEntries.ts';
import type { Archive } from '../archive/openArchive.ts';
import { parseRecord } from '../archive/recordFile.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { Speaker } from './speaker.ts';

export type FindOptions = {
  readonly serial?: string;
  readonly machine?: string;
  readonly what?: string;
  readonly pump?: string;
  readonly type?: string;
  readonly outcome?: string;
  readonly from?: string;
  readonly to?: string;
  readonly page: number;
};

function lineOf(found: FoundEntry): string {
  if (found.what === 'pump') {
    const { pumpId, pumpName, type, serialNumber, machine } = found.pump;
    return `pump         ${pumpId}  ${pumpName}; ${[type, serialNumber, machine].filter((part) => part !== '').join('; ')}`;
  }
  if (found.what === 'run') {
    const { id, kind, label, startedAtUtc, pumpName, serialNumber, outcome, ending } = found.run;
    return `run          ${id}  ${startedAtUtc.slice(0, 10)}  ${kind}, ${label}: ${outcome ?? ending}; ${pumpName}; ${serialNumber}`;
  }
  const { number, issuedAtUtc, pumpName, serialNumber, outcome, isSpecimen } = found.certificate;
  const specimen = isSpecimen ? 'SPECIMEN, ' : '';
  return `certificate  ${number}  ${issuedAtUtc.slice(0, 10)}  ${specimen}${outcome}; ${pumpName}; ${serialNumber}`;
}

function pageText({ total, page, pageSize, found }: FoundPage): string {
  if (found.length === 0)
    return total === 0 ? 'nothing was found' : `page ${page} is behind the last: ${total} were found`;
  const first = (page - 1) * pageSize + 1;
  const last = first + found.length - 1;
  const more = last < total ? `; --page ${page + 1} shows the next` : '';
  return [...found.map(lineOf), `${first} to ${last} of ${total}${more}`].join('\n');
}

/** `slipwright find`: pumps, runs and certificates by words and properties. */
export function find(words: readonly string[], options: FindOptions, archive: Archive, speaker: Speaker): ExitCode {
  const { serial, machine, what, pump, type, outcome, from, to, page } = options;
  const asked = {
    words: words.join(' '),
    serialNumber: serial,
    machine,
    what,
    pumpId: pump,
    type,
    outcome,
    from,
    to,
    page,
  };
  const given = Object.fromEntries(Object.entries(asked).filter(([, value]) => value !== undefined && value !== ''));
  const criteria = parseRecord(findCriteria, given, 'what is to be found');
  archive.refreshIndex();
  const found = archive.find(criteria);
  speaker.result(found, pageText(found));
  return EXIT.done;
}
