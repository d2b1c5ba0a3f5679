import { CHANNELS } from '../../../analysis/channels.ts';
import { printedUnit } from '../../../analysis/formatStated.ts';
import type { BenchRecord } from '../../api.ts';
import { ask } from '../shell/ask.ts';
import { Awaited } from '../shell/Entry.tsx';
import { address } from '../shell/route.ts';
import { useAnswer } from '../shell/useAnswer.ts';
import { dueOf, rangeWords } from './dueWords.ts';

function Instruments({ bench }: { readonly bench: BenchRecord }) {
  const today = new Date().toISOString().slice(0, 10);
  const rows = bench.channels
    .map((channel) => ({ channel, due: dueOf(channel, today) }))
    .toSorted((a, b) => a.due.daysLeft - b.due.daysLeft);
  const worth = rows.filter(({ due }) => due.isWorthALook).length;
  return (
    <>
      <p>
        {bench.name}, record version {bench.version}. The most pressing date first;{' '}
        {worth === 0 ? 'none is due soon.' : `${worth} of ${rows.length} want a look (▲).`}
      </p>
      <table class="stacking" data-testid="instrument-table">
        <thead>
          <tr>
            <th scope="col">channel</th>
            <th scope="col">instrument</th>
            <th scope="col">range</th>
            <th scope="col">calibration</th>
            <th scope="col">next</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ channel, due }) => (
            <tr key={channel.channel}>
              <th scope="row">
                <a href={address.instrument(channel.channel)}>{CHANNELS[channel.channel].label}</a>
              </th>
              <td>{channel.instrument}</td>
              <td class="limit">
                {rangeWords(channel)} <span class="unit">{printedUnit(channel.unit)}</span>
              </td>
              <td>{channel.calibration?.reference ?? '–'}</td>
              <td class="due">
                {due.isWorthALook && <span aria-hidden="true">▲ </span>}
                {due.words}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}

/** The instruments of the bench that is listened to, and when they are due. */
export function InstrumentsPlace() {
  const bench = useAnswer('bench', ask.bench);
  return (
    <>
      <h1>Instruments</h1>
      <Awaited answer={bench}>{(record) => <Instruments bench={record} />}</Awaited>
    </>
  );
}
