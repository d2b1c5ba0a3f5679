import { printFixed } from '../../../analysis/formatStated.ts';
import type { PlacedMark } from '../../../analysis/placeMarks.ts';
import type { RunView } from '../../api.ts';
import { RecordBands } from '../plots/RecordBands.tsx';
import { ask } from '../shell/ask.ts';
import { Awaited, Entry } from '../shell/Entry.tsx';
import { useAnswer } from '../shell/useAnswer.ts';
import { ChannelNumbers } from '../words/ChannelNumbers.tsx';
import { wallTime } from '../words/moments.ts';

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
            <details>
              <summary>This record as numbers</summary>
              <ChannelNumbers channels={value.channels} barometerPa={barometerPa} isLive={false} />
            </details>
          </>
        )}
      </Awaited>
      <MarkList marks={view.marks} />
    </Entry>
  );
}
