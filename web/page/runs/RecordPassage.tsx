import { printedUnit, printFixed } from '../../../analysis/formatStated.ts';
import type { PlacedMark } from '../../../analysis/placeMarks.ts';
import type { RunReadings, RunView } from '../../api.ts';
import { RecordBands } from '../plots/RecordBands.tsx';
import { ask } from '../shell/ask.ts';
import { Awaited, Entry } from '../shell/Entry.tsx';
import { useAnswer } from '../shell/useAnswer.ts';
import { CHANNEL_DISPLAY, CHANNEL_ORDER, channelLabel, shownText } from '../words/channelDisplay.ts';
import { wallTime } from '../words/moments.ts';
import { spanOf } from '../words/spanOf.ts';

function RecordNumbers({ readings, barometerPa }: { readonly readings: RunReadings; readonly barometerPa: number }) {
  return (
    <details>
      <summary>This record as numbers</summary>
      <table>
        <thead>
          <tr>
            <th scope="col">channel</th>
            <th scope="col" class="number">
              lowest
            </th>
            <th scope="col" class="number">
              highest
            </th>
            <th scope="col">unit</th>
          </tr>
        </thead>
        <tbody>
          {CHANNEL_ORDER.map((channel) => {
            const values = readings.channels[channel];
            if (values === undefined) return null;
            const [low, high] = spanOf(values);
            return (
              <tr key={channel}>
                <th scope="row">{channelLabel(channel)}</th>
                <td class="number">{shownText(channel, low, barometerPa)}</td>
                <td class="number">{shownText(channel, high, barometerPa)}</td>
                <td class="unit">{printedUnit(CHANNEL_DISPLAY[channel].unitSymbol)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </details>
  );
}

function MarkList({ marks }: { readonly marks: readonly PlacedMark[] }) {
  if (marks.length === 0) return null;
  return (
    <>
      <h3>Marks</h3>
      <ol data-testid="marks">
        {marks.map(({ atUtc, elapsedS, text }) => (
          <li key={`${atUtc} ${text}`}>
            {elapsedS === null ? wallTime(atUtc) : `${printFixed(elapsedS, 1)} s`}: {text}
          </li>
        ))}
      </ol>
    </>
  );
}

/** All channels over the whole run, holds shaded, marks ruled through. */
export function RecordPassage({ view }: { readonly view: RunView }) {
  const readings = useAnswer(view.run.id, () => ask.readings(view.run.id));
  const barometerPa = view.run.setUp.barometerPa.value;
  return (
    <Entry head="The record">
      <p class="faint">
        {view.result.delivery !== null && 'Shaded: the holds. '}
        Drag over a stretch to look closer; a double click shows all of it again.
      </p>
      <Awaited answer={readings}>
        {(value) => (
          <>
            <RecordBands
              readings={value}
              holds={view.result.delivery?.holds ?? []}
              marks={view.marks}
              barometerPa={barometerPa}
              syncKey={view.run.id}
            />
            <RecordNumbers readings={value} barometerPa={barometerPa} />
          </>
        )}
      </Awaited>
      <MarkList marks={view.marks} />
    </Entry>
  );
}
