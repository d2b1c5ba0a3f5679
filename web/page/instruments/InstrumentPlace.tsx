import { CHANNELS } from '../../../analysis/channels.ts';
import { printedUnit } from '../../../analysis/formatStated.ts';
import type { BenchChannel } from '../../../analysis/records/benchRecord.ts';
import { Fact } from '../runs/Conditions.tsx';
import { ask } from '../shell/ask.ts';
import { Awaited, Entry, Refusal } from '../shell/Entry.tsx';
import { address } from '../shell/route.ts';
import { useAnswer } from '../shell/useAnswer.ts';
import { CalibrationForm } from './CalibrationForm.tsx';
import { dueOf, rangeWords } from './dueWords.ts';
import { FittedCurve } from './FittedCurve.tsx';

function InForce({ channel }: { readonly channel: BenchChannel }) {
  const { calibration } = channel;
  const unit = printedUnit(channel.unit);
  const due = dueOf(channel, new Date().toISOString().slice(0, 10));
  return (
    <>
      <p class={due.isWorthALook ? 'look-here' : ''}>
        {due.isWorthALook && <span aria-hidden="true">▲ </span>}
        Calibration {due.words}.
      </p>
      <dl class="facts">
        <Fact name="instrument">{channel.instrument}</Fact>
        <Fact name="range">
          {rangeWords(channel)} {unit}
        </Fact>
        <Fact name="lag">{channel.lagS} s</Fact>
        {calibration !== null && (
          <>
            <Fact name="certificate or procedure">{calibration.reference}</Fact>
            <Fact name="calibrated on">{calibration.calibratedOn}</Fact>
            <Fact name="u of the gain">{Number((100 * calibration.gain.standardUncertainty).toPrecision(4))} %</Fact>
            <Fact name="u of the offset">
              {calibration.offset.standardUncertainty} {unit}
            </Fact>
          </>
        )}
      </dl>
      {calibration?.curve != null && <FittedCurve curve={calibration.curve} unit={unit} />}
    </>
  );
}

/** One instrument: its calibration in force, and the form for the next. */
export function InstrumentPlace({ id }: { readonly id: string }) {
  const bench = useAnswer('bench', ask.bench);
  return (
    <Awaited answer={bench}>
      {({ channels }) => {
        const channel = channels.find((entry) => entry.channel === id);
        if (channel === undefined) {
          return (
            <>
              <h1>No such instrument</h1>
              <Refusal text={`This bench has no channel ${id}.`} />
            </>
          );
        }
        return (
          <>
            <h1>{CHANNELS[channel.channel].label}</h1>
            <p>
              <a href={address.instruments}>All instruments</a>
            </p>
            <Entry head="In force">
              <InForce channel={channel} />
            </Entry>
            <Entry head="New calibration">
              <p>
                It becomes the next version of the bench record; runs that are recorded keep the one they began with.
              </p>
              <CalibrationForm channel={channel} />
            </Entry>
          </>
        );
      }}
    </Awaited>
  );
}
