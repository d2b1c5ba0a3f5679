import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import { CHANNELS } from '../../../analysis/channels.ts';
import { printedUnit } from '../../../analysis/formatStated.ts';
import { RUN_KIND_WORDS } from '../../../analysis/runKindWords.ts';
import { asBuiltPairs, clearanceRows } from './asBuilt.ts';
import { CIRCUIT_HEIGHT_PT, drawCircuit } from './circuitSketch.ts';
import { conditionPairs } from './conditionPairs.ts';
import { plain, withUncertainty } from './printed.ts';
import { runList } from './runList.ts';
import type { Sheet } from './sheet.ts';
import { STYLES } from './style.ts';
import { FIGURES_TABLE, SMALL_TABLE, setPairs, setTable } from './table.ts';

const GAP_PT = 16;
/** Between the columns of the widest table [pt]. */
const INSTRUMENTS_GUTTER_PT = 5;

function setAsBuilt(sheet: Sheet, data: CertificateData): void {
  sheet.heading('As built');
  const rows = clearanceRows(data);
  if (rows.length > 0) {
    setTable(
      sheet,
      [
        { heading: 'clearance', share: 55 },
        { heading: 'mm', share: 27, align: 'right' },
        { heading: 'limit', share: 18 },
      ],
      rows,
      SMALL_TABLE,
    );
    sheet.skip(3);
  }
  setPairs(sheet, asBuiltPairs(data), 0.3);
}

function setTheory(sheet: Sheet, { theory, delivery }: CertificateData): void {
  sheet.heading('Theory beside measurement');
  const none = 'no law was fitted';
  const { derivedCapacityM3PerRev: capacity, capacityRatio: ratio, flowRipple } = theory;
  const of = (name: string, runId: string): string => (delivery.length === 1 ? name : `${name}, ${runId}`);
  setPairs(
    sheet,
    [
      ['Swept volume V_g', `${withUncertainty(theory.sweptVolumeM3PerRev, 'cm3/rev')} (${theory.basis})`],
      ['Derived capacity V_i', capacity === null ? none : withUncertainty(capacity, 'cm3/rev')],
      ['V_i / V_g', ratio === null ? none : withUncertainty(ratio, '%')],
      ['Ideal flow ripple', flowRipple === null ? 'not computed' : plain(flowRipple, '%', 3)],
      ...delivery.flatMap(({ runId, twoStepCapacityM3PerRev: twoStep, lackOfFit, checks, againstTheory }) => {
        const signs = checks.filter(({ read }) => read === 'sign').map(({ text }) => text);
        const untold = checks.filter(({ read }) => read === 'cannot tell').map(({ name }) => name);
        const notSlip = [
          signs.length === 0 ? 'no sign of it' : signs.join(' '),
          ...(untold.length === 0 ? [] : [`not told by this run: ${untold.join(', ')}`]),
        ].join('; ');
        return [
          [of('V_i by two lines', runId), twoStep === null ? 'not possible' : withUncertainty(twoStep, 'cm3/rev')],
          ...(againstTheory.length === 0 ? [] : ([[of('Against theory', runId), againstTheory.join(' ')]] as const)),
          [of('Fit of the law', runId), lackOfFit],
          [of('What is not slip', runId), notSlip],
        ] as const;
      }),
    ],
    0.28,
  );
}

/** With a true minus sign. */
function signed(value: number): string {
  return String(value).replace('-', '−');
}

function setInstruments(sheet: Sheet, data: CertificateData): void {
  for (const bench of data.benches) {
    const { holdLimits: limits } = bench;
    const share = (ratio: number) => `± ${plain(ratio, '%', 2)}`;
    sheet.together((block) => {
      block.heading(`Method and instruments: ${bench.name} (${bench.id}, version ${bench.version})`);
      block.write(
        `A hold: ${limits.minDurationS} s or more with speed within ${share(limits.speed)}, flow ${share(limits.flow)}, pressures ${share(limits.pressure)} (below 2 bar(g) ± ${plain(limits.pressureBelow2BarPa, 'mbar(a)', 2).replace('(a)', '')}) and oil at the inlet ± ${plain(limits.oilTemperatureK, 'K', 2)} of their mean.`,
        STYLES.small,
      );
      block.skip(2);
      setTable(
        block,
        [
          { heading: 'channel', share: 74 },
          { heading: 'instrument', share: 133 },
          { heading: 'range', share: 57 },
          { heading: 'calibration', share: 58 },
          { heading: 'date', share: 32 },
          { heading: 'due', share: 32 },
          { heading: 'u, gain', share: 23, align: 'right' },
          { heading: 'u, offset', share: 38, align: 'right' },
        ],
        bench.instruments.map(({ channel, instrument, unit, range, calibration }) => [
          CHANNELS[channel].label,
          instrument,
          `${signed(range.min)} to ${signed(range.max)} ${printedUnit(unit)}`,
          calibration?.reference ?? 'none stated',
          calibration?.calibratedOn ?? '–',
          calibration?.dueOn ?? '–',
          calibration === null ? '–' : plain(calibration.gain.standardUncertainty, '%', 2),
          calibration === null ? '–' : `${calibration.offset.standardUncertainty} ${printedUnit(unit)}`,
        ]),
        { ...FIGURES_TABLE, gutterPt: INSTRUMENTS_GUTTER_PT },
      );
    });
  }
}

function setFindings(sheet: Sheet, data: CertificateData): void {
  sheet.heading('Findings');
  const texts = new Map<string, string[]>();
  for (const { runId, severity, text } of data.findings) {
    const said = severity === 'warning' ? `Warning: ${text}` : text;
    texts.set(said, [...(texts.get(said) ?? []), runId]);
  }
  if (texts.size === 0) sheet.write('None.', STYLES.small);
  for (const [text, runIds] of texts) {
    const runs = runIds.length === data.runs.length && runIds.length > 1 ? 'every run' : runList(runIds);
    sheet.write(`${text} (${runs})`, STYLES.small);
    sheet.skip(1.2);
  }
}

/** SHA-256 of nothing, FIPS 180-4: a run without a mark. */
const OF_NOTHING = 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855';

type Run = CertificateData['runs'][number];

function madeWith({ label, ending, analysisVersion, programVersion, stripSheet }: Run): string {
  const sheetWords = stripSheet === null ? '' : `; strip sheet ${stripSheet.id}, version ${stripSheet.version}`;
  return `${label}, ${ending}; analysis ${analysisVersion}, program ${programVersion}${sheetWords}`;
}

function setRun(column: Sheet, run: Run, isAlike: boolean): void {
  const { id, kind, readingCount, lineCount, byteLength, sha256 } = run;
  const size = `${readingCount} readings, ${lineCount} lines, ${byteLength} bytes`;
  const hasMarks = sha256.marks !== OF_NOTHING;
  const words = `${RUN_KIND_WORDS[kind]}, ${size}${isAlike ? '' : `; ${madeWith(run)}`}`;
  column.write(`${id}: ${words}`, STYLES.small);
  const hashes = [sha256.run, sha256.journal, ...(hasMarks ? [sha256.marks] : [])];
  for (const hash of hashes) column.write(hash, STYLES.quietFigures);
  column.skip(2);
}

function setRuns(sheet: Sheet, { runs }: CertificateData): void {
  const ways = new Set(runs.map(madeWith));
  const isAlike = ways.size === 1 && runs.length > 1;
  for (let index = 0; index < runs.length; index += 2) {
    sheet.together((block) => {
      if (index === 0) {
        block.heading('Runs it rests on, with the SHA-256 of run record, journal and, where there are any, marks');
        for (const words of isAlike ? ways : []) block.write(`All of them: ${words}.`, STYLES.small);
        block.skip(isAlike ? 1.5 : 0);
      }
      block.columns(
        [1, 1],
        GAP_PT,
        runs.slice(index, index + 2).map((run) => (column: Sheet) => setRun(column, run, isAlike)),
      );
    });
  }
}

function setVerification(sheet: Sheet, { verification, previous, notices }: CertificateData): void {
  sheet.heading('How to verify, and what verifying cannot know');
  sheet.write(verification.how.join(' '), STYLES.small);
  sheet.skip(2);
  const chain =
    previous === null
      ? 'Head of the chain when it was issued: none, it is the first certificate of its archive.'
      : `Head of the chain when it was issued: ${previous.number}, SHA-256 of its data ${previous.jsonSha256}, of its PDF ${previous.pdfSha256}.`;
  const cannotKnow = `It cannot know: ${verification.cannotKnow.join(' ')}`;
  const later = notices.map(({ file, jsonSha256 }) => `Then ${file}, ${jsonSha256}.`);
  sheet.write([cannotKnow, chain, ...later].join(' '), STYLES.small);
}

/** What it rests on: how the pump was built, circuit and conditions, theory, instruments, runs, and how to verify. */
export function setRecord(sheet: Sheet, data: CertificateData): void {
  sheet.together((block) =>
    block.columns([0.49, 0.51], GAP_PT, [
      (column) => {
        setAsBuilt(column, data);
        column.heading('Circuit and tapping points');
        drawCircuit(column, data);
        column.yPt += CIRCUIT_HEIGHT_PT;
      },
      (column) => {
        setTheory(column, data);
        column.heading('Conditions');
        setPairs(column, conditionPairs(data), 0.22);
        setFindings(column, data);
      },
    ]),
  );
  setInstruments(sheet, data);
  setRuns(sheet, data);
  sheet.together((block) => setVerification(block, data));
}
