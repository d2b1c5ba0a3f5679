import { printFixed } from '../../../../analysis/formatStated.ts';
import type { RunView } from '../../../api.ts';
import { spanFrom, type TimeSpan } from '../../plots/timeSpan.ts';
import { ask } from '../../shell/ask.ts';
import { Awaited, Entry } from '../../shell/Entry.tsx';
import { queried } from '../../shell/route.ts';
import { useAnswer } from '../../shell/useAnswer.ts';
import { wallTime } from '../../words/moments.ts';
import { LookLink } from './LookLink.tsx';
import { RecordPlot } from './RecordPlot.tsx';

/** On either side of a mark, when it is looked at [s]. */
const ABOUT_MARK_S = 5;

function MarkList({ view }: { readonly view: RunView }) {
  if (view.marks.length === 0) return null;
  return (
    <>
      <h3>Marks</h3>
      <ol data-testid="marks">
        {view.marks.map(({ atUtc, elapsedS, text }) => (
          <li key={`${atUtc} ${text}`}>
            {elapsedS === null ? (
              wallTime(atUtc)
            ) : (
              <LookLink runId={view.run.id} fromS={elapsedS - ABOUT_MARK_S} toS={elapsedS + ABOUT_MARK_S}>
                {printFixed(elapsedS, 1)} s
              </LookLink>
            )}
            : {text}
          </li>
        ))}
      </ol>
    </>
  );
}

/** All channels over the whole run or a stretch of it: holds shaded, marks ruled through, bad lines below. */
export function RecordPassage({ view }: { readonly view: RunView }) {
  const readings = useAnswer(view.run.id, () => ask.readings(view.run.id));
  return (
    <Entry head="The record">
      <Awaited answer={readings}>
        {(value) => {
          const whole: TimeSpan = [0, Math.max(value.elapsedS.at(-1) ?? 0, 1e-3)];
          const span = spanFrom(queried('from'), queried('to'), whole) ?? whole;
          return <RecordPlot view={view} overview={value} whole={whole} span={span} />;
        }}
      </Awaited>
      <MarkList view={view} />
    </Entry>
  );
}
