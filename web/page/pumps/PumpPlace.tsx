import { printedUnit, printFixed } from '../../../analysis/formatStated.ts';
import { whyNeverDry } from '../../../analysis/guide/dryTurning.ts';
import type { PumpRecord } from '../../../analysis/records/pumpRecord.ts';
import type { StripSheet } from '../../../analysis/records/stripSheet.ts';
import { readingFrom, unitOf } from '../../../analysis/units.ts';
import type { PumpHistory } from '../../api.ts';
import { Fact } from '../runs/Conditions.tsx';
import { RunTable } from '../runs/RunsPlace.tsx';
import { ask } from '../shell/ask.ts';
import { Awaited, Entry, Refusal } from '../shell/Entry.tsx';
import { address } from '../shell/route.ts';
import { useAnswer } from '../shell/useAnswer.ts';
import { demandWords } from '../words/demandWords.ts';
import { GeometryFacts } from './GeometryFacts.tsx';
import { TimeLine } from './history/TimeLine.tsx';
import { Trends } from './history/Trends.tsx';
import { SweptVolumeFacts } from './SweptVolumeFacts.tsx';
import { SumsAndSlip } from './strip/StripSums.tsx';
import { TurningDrawing } from './TurningDrawing.tsx';

const RPM = unitOf('r/min');

function Duty({ pump }: { readonly pump: PumpRecord }) {
  if (pump.duty === null) {
    return <p>Nobody has said what the machine needs of this pump: its runs are measured, never passed.</p>;
  }
  return (
    <>
      <p>Machine: {pump.duty.machine}.</p>
      <table class="stacking">
        <thead>
          <tr>
            <th scope="col">what is asked</th>
            <th scope="col">limit</th>
            <th scope="col">origin</th>
          </tr>
        </thead>
        <tbody>
          {pump.duty.demands.map((demand) => {
            const { what, limit, unitSymbol } = demandWords(demand);
            return (
              <tr key={demand.id}>
                <th scope="row">{what}</th>
                <td>
                  {limit} <span class="unit">{printedUnit(unitSymbol)}</span>
                </td>
                <td>
                  {demand.origin}
                  {demand.note !== '' && <span class="reason">{demand.note}</span>}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </>
  );
}

function Record({ pump, history }: { readonly pump: PumpRecord; readonly history: PumpHistory }) {
  const { speedRangeRevPerS: range } = pump;
  return (
    <>
      <h1>{pump.name}</h1>
      <Entry head="Identity">
        <dl class="facts">
          <Fact name="number">{pump.serialNumber}</Fact>
          <Fact name="type">{pump.type}</Fact>
          <Fact name="maker">{pump.maker}</Fact>
          <Fact name="owner">{pump.owner === '' ? '–' : pump.owner}</Fact>
          <Fact name="rotation, seen on the shaft end">{pump.rotation}</Fact>
          <Fact name="speed range">
            {printFixed(readingFrom(range.min, RPM, 0), 0)} to {printFixed(readingFrom(range.max, RPM, 0), 0)} r/min
          </Fact>
          <Fact name="may run dry">{whyNeverDry(pump) ?? 'yes, for as long as a dry start takes'}</Fact>
          <Fact name="record">
            {pump.id}, version {pump.version}
          </Fact>
        </dl>
        {pump.remarks !== '' && <p>{pump.remarks}</p>}
        <p>
          <a href={address.pumpRecord(pump.id)}>Put this record right</a>
        </p>
      </Entry>
      <Entry head="Geometry">
        <TurningDrawing pump={pump} />
        <SweptVolumeFacts pump={pump} />
        <GeometryFacts geometry={pump.geometry} />
      </Entry>
      <Entry head="Duty">
        <Duty pump={pump} />
      </Entry>
      <Entry head="Strip sheet">
        <Apart pump={pump} sheet={history.strips[0] ?? null} />
      </Entry>
      <Entry head="History">
        <TimeLine history={history} />
        <Trends runs={history.runs} />
      </Entry>
      {history.runs.length > 0 && (
        <Entry head="Runs">
          <RunTable runs={history.runs} hasPump={false} />
        </Entry>
      )}
    </>
  );
}

/** What the pump measured when it was apart, what follows from it, and what would if it were otherwise. */
function Apart({ pump, sheet }: { readonly pump: PumpRecord; readonly sheet: StripSheet | null }) {
  return (
    <>
      <p>
        {sheet === null
          ? 'None is filed: with one, the slip can be predicted before the pump is run. '
          : `Of ${sheet.measuredOn}, ${sheet.occasion}, by ${sheet.measuredBy}. `}
        <a href={address.stripSheet(pump.id)}>{sheet === null ? 'Write it' : 'Write the next one'}</a>
      </p>
      {sheet !== null && <SumsAndSlip sheet={sheet} pump={pump} />}
    </>
  );
}

async function pumpWithHistory(id: string) {
  const pumps = await ask.pumps();
  const pump = pumps.find((candidate) => candidate.id === id);
  return pump === undefined ? null : { pump, history: await ask.pumpHistory(id) };
}

/** One pump: its record read out, and its runs. */
export function PumpPlace({ id }: { readonly id: string }) {
  const answer = useAnswer(id, () => pumpWithHistory(id));
  return (
    <Awaited answer={answer}>
      {(found) =>
        found === null ? (
          <>
            <h1>No such pump</h1>
            <Refusal text={`No pump record is called ${id}.`} />
          </>
        ) : (
          <Record {...found} />
        )
      }
    </Awaited>
  );
}
