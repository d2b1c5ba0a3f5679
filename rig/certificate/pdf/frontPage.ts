import type { CertificateData, CertificateDemand } from '../../../analysis/certificate/certificateData.ts';
import { demandLimit, demandName, demandPlace, demandValue } from '../../../analysis/certificate/demandWords.ts';
import { formatProbability } from '../../../analysis/formatStated.ts';
import { sha256Of } from '../certificateFolder.ts';
import { handoverPairs } from './handoverPairs.ts';
import { instant } from './printed.ts';
import { drawableParts, setPumpDrawing } from './pumpDrawing.ts';
import { codeText, drawCode } from './qrCode.ts';
import type { Sheet } from './sheet.ts';
import type { Signer } from './signer.ts';
import { MM, STYLES } from './style.ts';
import { type Cell, setPairs, setTable } from './table.ts';

const COLUMN_GAP_PT = 16;
const CODE_PT = 27 * MM;

function setHead(sheet: Sheet, data: CertificateData): void {
  const right = sheet.column(sheet.xPt, sheet.widthPt);
  right.write(`No. ${data.number}`, STYLES.strong, 'P', 'right');
  sheet.write(data.workshop, STYLES.strong);
  sheet.skip(3);
  sheet.rule();
  sheet.skip(10);
  sheet.write(data.title, STYLES.title, 'H1');
  sheet.skip(3);
  sheet.write(data.sentence, STYLES.sentence);
  if (data.isSpecimen) {
    sheet.skip(2);
    sheet.write('Specimen from the practice bench: a model ran, no pump was tested.', STYLES.strong);
  }
  if (data.replaces !== null) {
    sheet.skip(2);
    sheet.write(`Takes the place of certificate ${data.replaces.number}: ${data.replaces.reason}`, STYLES.strong);
  }
}

/** When, by whom and in which state it was tested. */
function testedWords({ runs }: CertificateData): string {
  const days = [...new Set(runs.map(({ startedAtUtc }) => startedAtUtc.slice(0, 10)))].sort().join(', ');
  const people = [...new Set(runs.map(({ operator }) => operator))].join(', ');
  return `on ${days} by ${people}, ${[...new Set(runs.map(({ label }) => label))].join(', ')}`;
}

function setPump(sheet: Sheet, data: CertificateData): void {
  const { pump } = data;
  setPairs(
    sheet,
    [
      ['Pump', pump.name],
      ['Type', pump.type],
      ['Serial number', pump.serialNumber],
      ['Rotation', `${pump.rotation}, seen on the shaft end`],
      ['Maker', pump.maker],
      ['Customer', pump.owner === '' ? 'not stated' : pump.owner],
      ['Machine', pump.duty?.machine ?? 'duty not stated'],
      ['Markings', pump.markings.length === 0 ? 'not stated' : pump.markings.join('; ')],
      [
        'Photographs',
        pump.photographs.length === 0
          ? 'none filed'
          : pump.photographs.map(({ caption, sha256 }) => `${caption} (SHA-256 ${sha256})`).join('; '),
      ],
      ['Pump record', `${pump.id}, version ${pump.version}`],
      ['Tested', testedWords(data)],
    ],
    0.26,
  );
}

function setWhoAndWhat(sheet: Sheet, data: CertificateData): void {
  const parts = drawableParts(data.pump);
  sheet.skip(9);
  sheet.columns([0.56, 0.44], COLUMN_GAP_PT, [
    (column) => setPump(column, data),
    (column) => {
      if (parts !== null) setPumpDrawing(column, data.pump, parts);
    },
  ]);
}

function demandRow(entry: CertificateDemand): readonly Cell[] {
  const { demand, verdict, value, conformityProbability, runId, reason } = entry;
  const printed = value === null ? null : demandValue(demand, value);
  const quiet = STYLES.quiet;
  const origin = demand.note === '' ? `origin: ${demand.origin}` : `origin: ${demand.origin}; ${demand.note}`;
  return [
    [
      { text: demandName(demand), style: STYLES.strong },
      { text: `${demandPlace(demand)}; ${origin}`, style: quiet },
    ],
    printed === null
      ? '–'
      : [
          { text: `${printed.value} ${printed.unit}`, style: STYLES.body },
          { text: `± ${printed.expandedUncertainty} ${printed.unit}`, style: quiet },
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
  sheet.heading('Demands of the machine, and verdicts');
  if (data.demands.length === 0) {
    sheet.write('Nobody has stated what the machine needs of this pump: its values are measured and not judged.');
    return;
  }
  setTable(
    sheet,
    [
      { heading: 'demand', share: 54 },
      { heading: 'value and U', share: 14, align: 'right' },
      { heading: 'limit', share: 17 },
      { heading: 'verdict', share: 20 },
      { heading: 'decided by', share: 17 },
    ],
    data.demands.map(demandRow),
  );
  sheet.skip(4);
  sheet.write(`${data.decisionRule} ${data.uncertaintyStatement}`, STYLES.quiet);
}

/** The limit by lift and blanked starts together, what each alone says, and what follows for the machine. */
function setTogether(sheet: Sheet, { dryLiftTogether }: CertificateData): void {
  for (const { inWords } of dryLiftTogether) {
    const [limit = '', ...further] = inWords;
    sheet.write(limit);
    sheet.write(further.join(' '), STYLES.small);
    sheet.skip(2);
  }
}

/** What was proven of a dry start, and what is estimated, apart. */
function setDryLift(sheet: Sheet, data: CertificateData): void {
  sheet.heading('Drawing oil from dry');
  const severalStarts = data.dryLiftSeries.filter(({ starts }) => starts.length > 1);
  for (const { inWords } of severalStarts) {
    sheet.write(inWords.join(' '));
    sheet.skip(2);
  }
  const inSeries = new Set(severalStarts.flatMap(({ starts }) => starts.map(({ runId }) => runId)));
  setTogether(sheet, data);
  const together = new Set(data.dryLiftTogether.flatMap(({ runIds }) => runIds));
  for (const { runId, kind, inWords, diagnosisInWords, estimate } of data.dryLift) {
    // Of a series each start is told of with the measurements, and of a blanked one the joint fit says all.
    if (inSeries.has(runId) || (kind === 'blanked' && together.has(runId))) continue;
    sheet.write([inWords, ...diagnosisInWords].join(' '));
    if (estimate !== null && !together.has(runId)) sheet.write(estimate.inWords.join(' '), STYLES.small);
    sheet.skip(2);
  }
  if (data.dryLift.length === 0) sheet.write('Not tested.');
  for (const { runId, inWords } of data.furtherRuns) {
    sheet.write(`Run ${runId}: ${inWords.join(' ')}`, STYLES.small);
    sheet.skip(2);
  }
}

function setSealed(sheet: Sheet, data: CertificateData): void {
  sheet.heading('As sealed');
  sheet.write(data.scope, STYLES.strong);
  sheet.skip(2);
  setPairs(sheet, handoverPairs(data), 0.34);
}

function setCautions(sheet: Sheet, { cautions }: CertificateData): void {
  sheet.heading('When the pump is fitted');
  for (const caution of cautions) {
    sheet.write(caution, STYLES.small);
    sheet.skip(1.2);
  }
}

/** Who answers for it, by which key, and the code by which paper and file are told to belong together. */
function setSignature(sheet: Sheet, data: CertificateData, json: Uint8Array, signer: Signer): void {
  sheet.skip(8);
  sheet.rule();
  sheet.skip(7);
  const codePt = CODE_PT * sheet.layout.scale;
  const codeXPt = sheet.xPt + sheet.widthPt - codePt;
  const text = sheet.column(sheet.xPt, sheet.widthPt - codePt - COLUMN_GAP_PT);
  setPairs(
    text,
    [
      ['Answered for by', data.signatory],
      ['Issued', [`${instant(data.issuedAtUtc)}, ${data.workshop}`, ...data.dateDoubts].join('. ')],
      ['Signed by the key of', signer.subject.replaceAll('\n', ', ')],
      ['SHA-256 of its certificate', signer.fingerprint],
      ['SHA-256 of the data', `${sha256Of(json)} (attached as ${data.number}.json; number and hash stand in the code)`],
    ],
    0.24,
  );
  drawCode(sheet.column(codeXPt, codePt), codeText(data, json), codePt);
  sheet.yPt = Math.max(text.yPt, sheet.yPt + codePt);
}

/** Who, what, the verdict in a sentence, the demands one by one, what to mind when the pump is fitted, and who signs. */
export function setFrontPage(sheet: Sheet, data: CertificateData, json: Uint8Array, signer: Signer): void {
  setHead(sheet, data);
  setWhoAndWhat(sheet, data);
  setDemands(sheet, data);
  sheet.together((block) => {
    block.columns([0.58, 0.42], COLUMN_GAP_PT, [
      (column) => setDryLift(column, data),
      (column) => {
        setSealed(column, data);
        setCautions(column, data);
      },
    ]);
  });
  sheet.together((block) => setSignature(block, data, json, signer));
}
