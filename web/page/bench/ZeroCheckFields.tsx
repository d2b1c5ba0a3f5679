import { CHANNELS, isChannelName } from '../../../analysis/channels.ts';
import { formatStated, printedUnit } from '../../../analysis/formatStated.ts';
import type { ZeroCheck } from '../../../analysis/records/runRecord.ts';
import { unitOf } from '../../../analysis/units.ts';
import type { ZeroCheckRequest, ZeroCheckView } from '../../api.ts';
import { ask } from '../shell/ask.ts';
import { Refusal } from '../shell/Entry.tsx';
import { useAction } from '../shell/useAction.ts';
import { wallTime } from '../words/moments.ts';

type ChannelZero = ZeroCheck['channels'][number];

/** Offsets come in their channel's own unit: nothing is converted, only printed. */
const AS_IT_IS = unitOf('1');

function withApplied({ zeroCheck, ...view }: ZeroCheckView, channel: string, isApplied: boolean): ZeroCheckView {
  const channels = zeroCheck.channels.map((entry) => (entry.channel === channel ? { ...entry, isApplied } : entry));
  return { ...view, zeroCheck: { ...zeroCheck, channels } };
}

function ZeroRow(row: {
  readonly entry: ChannelZero;
  readonly unitSymbol: string;
  readonly onApplied: (isApplied: boolean) => void;
}) {
  const { channel, offset, standardUncertainty, isApplied } = row.entry;
  const label = isChannelName(channel) ? CHANNELS[channel].label : channel;
  const printed = formatStated({ value: offset, expandedUncertainty: standardUncertainty }, AS_IT_IS);
  return (
    <tr>
      <th scope="row">{label}</th>
      <td class="number">
        {printed.value} <span class="uncertainty">u {printed.expandedUncertainty}</span>{' '}
        <span class="unit">{printedUnit(row.unitSymbol).replace(/\([ag]\)/, '')}</span>
      </td>
      <td>
        <input
          type="checkbox"
          aria-label={`take the offset of ${label} off`}
          checked={isApplied}
          onChange={(event) => row.onApplied(event.currentTarget.checked)}
        />
      </td>
    </tr>
  );
}

/** Zero check before a run: offsets measured at rest, each taken off where it is ticked, recorded all the same. */
export function ZeroCheckFields(props: {
  readonly taken: ZeroCheckView | null;
  /** Null while barometer or oil are not typed as they must be. */
  readonly request: ZeroCheckRequest | null;
  readonly onTaken: (taken: ZeroCheckView | null) => void;
}) {
  const { taken, request, onTaken } = props;
  const action = useAction();
  const take = (): void => {
    if (request === null) return;
    action.run(async () => onTaken(await ask.takeZeroCheck(request)));
  };
  return (
    <details data-testid="zero-check">
      <summary>
        Zero check: {taken === null ? 'none taken' : `taken ${wallTime(taken.zeroCheck.takenAtUtc)}, goes with the run`}
      </summary>
      <p>
        Motor at rest, valve open, pressure tappings open to the air. What each instrument says then is recorded; what
        is ticked is taken off its readings.
      </p>
      <p>
        <button type="button" onClick={take} disabled={action.isUnderWay || request === null}>
          {action.isUnderWay ? 'Watching the bench at rest …' : 'Take zero check'}
        </button>{' '}
        {taken !== null && (
          <button type="button" class="quiet" onClick={() => onTaken(null)}>
            leave it away
          </button>
        )}
      </p>
      {request === null && <p>Barometer and density of the oil are needed first: see set-up and oil above.</p>}
      <Refusal text={action.refusal} />
      {taken !== null && (
        <table>
          <caption>Said at rest, less what it should say; u is a standard uncertainty.</caption>
          <thead>
            <tr>
              <th scope="col">channel</th>
              <th scope="col" class="number">
                offset
              </th>
              <th scope="col">take it off</th>
            </tr>
          </thead>
          <tbody>
            {taken.zeroCheck.channels.map((entry) => (
              <ZeroRow
                key={entry.channel}
                entry={entry}
                unitSymbol={taken.unitSymbols[entry.channel] ?? '1'}
                onApplied={(isApplied) => onTaken(withApplied(taken, entry.channel, isApplied))}
              />
            ))}
          </tbody>
        </table>
      )}
    </details>
  );
}
