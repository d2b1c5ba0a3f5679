import type { CertificateData, CertificateDemand } from '../../../analysis/certificate/certificateData.ts';
import { demandLimit, demandName, demandPlace, demandValue } from '../../../analysis/certificate/demandWords.ts';
import { formatProbability } from '../../../analysis/formatStated.ts';
import { instant } from './printed.ts';
import { drawableParts, setPumpDrawing } from './pumpDrawing.ts';
import type { Sheet } from './sheet.ts';
import type { Signer } from './signer.ts';
import { STYLES } from './style.ts';
import { type Cell, setPairs, setTable } from './table.ts';

function setHead(sheet: Sheet, data: CertificateData): void {
  const right = sheet.column(sheet.xPt, sheet.widthPt);
  right.write(`No. ${data.number}`, STYLES.strong, 'P', 'right');
  sheet.write(data.workshop, STYLES.strong);
  sheet.skip(3);
  sheet.rule();
  sheet.skip(12);
  sheet.write(data.title, STYLES.title, 'H1');
  sheet.skip(4);
  sheet.write(data.sentence, STYLES.sentence);
  sheet.skip(2);
  if (data.isSpecimen) {
    sheet.write('Specimen from the practice bench: a model ran, no pump was tested.', STYLES.strong);
  }
}

function setWhoAndWhat(sheet: Sheet, data: CertificateData, signer: Signer): void {
  const { pump, runs } = data;
  sheet.skip(10);
  const leftWidthPt = sheet.widthPt * 0.54;
  const left = sheet.column(sheet.xPt, leftWidthPt);
  const right = sheet.column(sheet.xPt + leftWidthPt + 14, sheet.widthPt - leftWidthPt - 14);
  const days = [...new Set(runs.map(({ startedAtUtc }) => startedAtUtc.slice(0, 10)))].sort().join(', ');
  const people = [...new Set(runs.map(({ operator }) => operator))].join(', ');
  setPairs(left, [
    ['Pump', pump.name],
    ['Type', `${pump.type}, turning ${pump.rotation} seen on the shaft end`],
    ['Serial number', pump.serialNumber],
    ['Maker', pump.maker],
    ['Owner', pump.owner === '' ? 'not stated' : pump.owner],
    ['Machine', pump.duty?.machine ?? 'duty not stated'],
    ['Pump record', `${pump.id}, version ${pump.version}`],
  ]);
  setPairs(
    right,
    [
      ['Tested on', days],
      ['Tested by', people],
      ['State', [...new Set(runs.map(({ label }) => label))].join(', ')],
      ['Issued', instant(data.issuedAtUtc)],
      ['Signatory', data.signatory],
      ['Signing key', `${signer.subject.replaceAll('\n', ', ')}; SHA-256 of its certificate ${signer.fingerprint}`],
    ],
    0.32,
  );
  sheet.yPt = Math.max(left.yPt, right.yPt);
}

function demandRow(entry: CertificateDemand): readonly Cell[] {
  const { demand, verdict, value, conformityProbability, runId, reason } = entry;
  const printed = value === null ? null : demandValue(demand, value);
  const quiet = STYLES.quiet;
  return [
    [
      { text: demandName(demand), style: STYLES.strong },
      { text: demandPlace(demand), style: quiet },
      {
        text: demand.note === '' ? `origin: ${demand.origin}` : `origin: ${demand.origin}; ${demand.note}`,
        style: quiet,
      },
    ],
    printed === null
      ? '–'
      : [
          { text: `${printed.value} ${printed.unit}`, style: STYLES.body },
          { text: `± ${printed.expandedUncertainty}`, style: quiet },
        ],
    demandLimit(demand),
    [
      { text: verdict, style: STYLES.strong },
      {
        text: conformityProbability === null ? '' : `probability ${formatProbability(conformityProbability)}`,
        style: quiet,
      },
    ],
    [
      { text: runId === null ? reason : `run ${runId}`, style: quiet },
      ...(runId === null || verdict === 'pass' ? [] : [{ text: reason, style: quiet }]),
    ],
  ];
}

function setDemands(sheet: Sheet, data: CertificateData): void {
  sheet.heading('Demands');
  if (data.demands.length === 0) {
    sheet.write('Nobody has stated what the machine needs of this pump: its values are measured and not judged.');
    return;
  }
  setTable(
    sheet,
    [
      { heading: 'demand', share: 33 },
      { heading: 'value, U', share: 15, align: 'right' },
      { heading: 'limit', share: 17 },
      { heading: 'verdict', share: 19 },
      { heading: 'decided by', share: 24 },
    ],
    data.demands.map(demandRow),
  );
  sheet.skip(5);
  sheet.write(data.decisionRule, STYLES.quiet);
  sheet.skip(2);
  sheet.write(data.uncertaintyStatement, STYLES.quiet);
}

/** Least room for what stands beside the drawing [pt]. */
const PASSAGE_PT = 130;
const TEXT_SHARE = 0.62;

/** What was proven of a dry start, and what the certificate speaks for; the pump itself drawn beside it. */
function setDryLiftAndScope(sheet: Sheet, data: CertificateData): void {
  const parts = drawableParts(data.pump);
  sheet.keepTogether(PASSAGE_PT);
  const text = sheet.column(sheet.xPt, sheet.widthPt * (parts === null ? 1 : TEXT_SHARE));
  text.heading('Drawing oil from dry');
  const severalStarts = data.dryLiftSeries.filter(({ starts }) => starts.length > 1);
  for (const { inWords } of severalStarts) {
    text.write(inWords.join(' '));
    text.skip(2);
  }
  const inSeries = new Set(severalStarts.flatMap(({ starts }) => starts.map(({ runId }) => runId)));
  for (const { runId, inWords, diagnosisInWords, estimate } of data.dryLift) {
    // Of a series the plots and the annex have each start.
    if (inSeries.has(runId)) continue;
    text.write(inWords);
    for (const sentence of diagnosisInWords) text.write(sentence, STYLES.small);
    for (const sentence of estimate?.inWords ?? []) text.write(sentence, STYLES.small);
    text.skip(2);
  }
  if (data.dryLift.length === 0) text.write('Not tested.');
  text.heading('Scope');
  text.write(data.scope);
  if (parts !== null) {
    const drawing = sheet.column(sheet.xPt + sheet.widthPt * (TEXT_SHARE + 0.04), sheet.widthPt * (0.96 - TEXT_SHARE));
    drawing.skip(12);
    setPumpDrawing(drawing, data.pump, parts);
    sheet.yPt = Math.max(text.yPt, drawing.yPt);
  } else {
    sheet.yPt = text.yPt;
  }
}

/** Who, what, the verdict in a sentence, the demands one by one, and what to mind when the pump is fitted. */
export function setFirstPage(sheet: Sheet, data: CertificateData, signer: Signer): void {
  setHead(sheet, data);
  setWhoAndWhat(sheet, data, signer);
  setDemands(sheet, data);
  setDryLiftAndScope(sheet, data);
  sheet.heading('When the pump is fitted');
  for (const caution of data.cautions) {
    sheet.write(caution, STYLES.small);
    sheet.skip(1.5);
  }
}
