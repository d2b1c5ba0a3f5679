import { printedUnit, printFixed } from '../../../analysis/formatStated.ts';
import { whyNeverDry } from '../../../analysis/guide/dryTurning.ts';
import type { PumpRecord } from '../../../analysis/records/pumpRecord.ts';
import { readingFrom, unitOf } from '../../../analysis/units.ts';
import type { RunListEntry } from '../../api.ts';
import { Fact } from '../runs/Conditions.tsx';
import { RunTable } from '../runs/RunsPlace.tsx';
import { ask } from '../shell/ask.ts';
import { Awaited, Entry, Refusal } from '../shell/Entry.tsx';
import { address } from '../shell/route.ts';
import { useAnswer } from '../shell/useAnswer.ts';
import { demandWords } from '../words/demandWords.ts';
import { GeometryFacts } from './GeometryFacts.tsx';
import { PumpDrawing } from './PumpDrawing.tsx';
import { SweptVolumeFacts } from './SweptVolumeFacts.tsx';

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

function Record({ pump, runs }: { readonly pump: PumpRecord; readonly runs: readonly RunListEntry[] }) {
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
        <PumpDrawing pump={pump} />
        <SweptVolumeFacts pump={pump} />
        <GeometryFacts geometry={pump.geometry} />
      </Entry>
      <Entry head="Duty">
        <Duty pump={pump} />
      </Entry>
      <Entry head="Runs">{runs.length === 0 ? <p>None yet.</p> : <RunTable runs={runs} hasPump={false} />}</Entry>
    </>
  );
}

async function pumpWithRuns(id: string) {
  const [pumps, runs] = await Promise.all([ask.pumps(), ask.runs()]);
  return { pump: pumps.find((pump) => pump.id === id), runs: runs.filter(({ pumpId }) => pumpId === id) };
}

/** One pump: its record read out, and its runs. */
export function PumpPlace({ id }: { readonly id: string }) {
  const answer = useAnswer(id, () => pumpWithRuns(id));
  return (
    <Awaited answer={answer}>
      {({ pump, runs }) =>
        pump === undefined ? (
          <>
            <h1>No such pump</h1>
            <Refusal text={`No pump record is called ${id}.`} />
          </>
        ) : (
          <Record pump={pump} runs={runs} />
        )
      }
    </Awaited>
  );
}
