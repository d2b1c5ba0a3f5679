import type { PumpRecord } from '../../../analysis/records/pumpRecord.ts';
import type { History } from './historyFiles.ts';
import { READINGS_FOLDER } from './historyManifest.ts';

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}

function link(path: string, text: string): string {
  return `<a href="${escaped(path)}">${escaped(text)}</a>`;
}

function row(cells: readonly string[]): string {
  return `<tr>${cells.map((cell) => `<td>${cell}</td>`).join('')}</tr>`;
}

function table(headings: readonly string[], rows: readonly (readonly string[])[]): string {
  if (rows.length === 0) return '<p>None.</p>';
  const head = headings.map((heading) => `<th scope="col">${escaped(heading)}</th>`).join('');
  return `<table>\n${head === '' ? '' : `<thead><tr>${head}</tr></thead>\n`}<tbody>\n${rows.map(row).join('\n')}\n</tbody>\n</table>`;
}

function certificateRows({ certificates, files }: History): readonly (readonly string[])[] {
  return certificates.map(({ number, issuedAtUtc, outcome, isSpecimen, signatory, standing, standingNote }) => {
    const notice = `certificates/${number}.withdrawn.json`;
    return [
      link(`certificates/${number}.pdf`, number),
      escaped(issuedAtUtc.slice(0, 10)),
      escaped(isSpecimen ? `SPECIMEN, ${outcome}` : outcome),
      escaped(standing === 'issued' ? 'stands' : `${standing}: ${standingNote}`) +
        (files.includes(notice) ? ` (${link(notice, 'notice')})` : ''),
      escaped(signatory),
      `${link(`certificates/${number}.json`, 'data')}, ${link(`certificates/${number}.jws`, 'signature')}`,
    ];
  });
}

function runRows({ runs, files }: History): readonly (readonly string[])[] {
  return runs.map(({ id, startedAtUtc, kind, label, operator, outcome, ending }) => {
    const own = files.filter((path) => path.startsWith(`runs/${id}/`));
    return [
      escaped(id),
      escaped(startedAtUtc.slice(0, 16).replace('T', ' ')),
      escaped(`${kind}, ${label}`),
      escaped(outcome ?? ending),
      escaped(operator),
      own.map((path) => link(path, path.slice(path.lastIndexOf('/') + 1))).join(', '),
      link(`${READINGS_FOLDER}/${id}.csv`, 'CSV'),
    ];
  });
}

const STYLE = `
body { font: 1rem/1.5 Georgia, serif; margin: 2rem auto; max-width: 70rem; padding: 0 1rem; color: #1b2226; background: #fff; }
h1 { font-size: 1.6rem; } h2 { font-size: 1.2rem; margin-top: 2rem; }
table { border-collapse: collapse; width: 100%; } th, td { border-bottom: 1px solid #c4ccd0; padding: .3rem .6rem; text-align: left; vertical-align: top; }
pre { background: #f2f4f5; padding: .7rem; overflow-x: auto; }
`;

/**
 * index.html of an export: what lies in it and how to check it, for whoever has a browser and nothing else. No script, nothing
 * fetched from elsewhere.
 *
 * @param pump - the latest record of the pump; null: the archive has none [-]
 * @param history - what was exported [-]
 * @param exportedAtUtc - when [-]
 */
export function historyPage(pump: PumpRecord | null, history: History, exportedAtUtc: string): string {
  const { pumpId, files, openRuns } = history;
  const records = files.filter((path) => /^(?:pumps|strips|benches|days)\//.test(path) && !path.endsWith('SHA256SUMS'));
  const facts: readonly (readonly string[])[] =
    pump === null
      ? []
      : [
          ['type', pump.type],
          ['serial number', pump.serialNumber],
          ['maker', pump.maker],
          ['owner', pump.owner],
          ['machine', pump.duty?.machine ?? ''],
          ['rotation, seen on the shaft end', pump.rotation],
        ];
  const title = `${pump?.name ?? pumpId}: its whole history`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<style>${STYLE}</style>
</head>
<body>
<h1>${escaped(title)}</h1>
<p>Exported ${escaped(exportedAtUtc.slice(0, 16).replace('T', ' '))} UTC. Everything here is in plain, open formats and needs no program of its own.
The certificates are the files to read; the rest is what they rest on.</p>
${table(
  [],
  facts.filter(([, value]) => value !== '').map((fact) => fact.map(escaped)),
)}
<h2>Certificates</h2>
${table(['number', 'issued', 'verdict', 'standing at export', 'answered for by', 'files'], certificateRows(history))}
<p>A certificate may have been replaced or withdrawn after this export: ask the workshop.</p>
<h2>Runs</h2>
${table(['run', 'begun, UTC', 'kind', 'outcome', 'operator', 'files', 'readings'], runRows(history))}
${openRuns.length === 0 ? '' : `<p>Left out, because not sealed yet: ${escaped(openRuns.join(', '))}.</p>`}
<h2>Records</h2>
<p>${records.map((path) => link(path, path)).join('<br>\n')}</p>
<h2>How to check it</h2>
<p>Whether every file is as it was exported, in this folder:</p>
<pre>sha256sum --check SHA256SUMS</pre>
<p>A certificate's signature, and the data in it, with common tools (poppler-utils):</p>
<pre>pdfsig certificates/NUMBER.pdf
pdfdetach -list certificates/NUMBER.pdf</pre>
<p>README.txt says what each kind of file is.</p>
</body>
</html>
`;
}
