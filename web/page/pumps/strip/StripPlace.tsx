import { ask } from '../../shell/ask.ts';
import { Awaited, Refusal } from '../../shell/Entry.tsx';
import { address } from '../../shell/route.ts';
import { useAnswer } from '../../shell/useAnswer.ts';
import { StripForm } from './StripForm.tsx';

async function pumpWithSheets(id: string) {
  const [pumps, history] = await Promise.all([ask.pumps(), ask.pumpHistory(id)]);
  return { pump: pumps.find((pump) => pump.id === id), sheet: history.strips[0] ?? null };
}

/** The strip sheet of a pump, written or written anew. */
export function StripPlace({ id }: { readonly id: string }) {
  const answer = useAnswer(id, () => pumpWithSheets(id));
  return (
    <>
      <h1>Strip sheet</h1>
      <Awaited answer={answer}>
        {({ pump, sheet }) =>
          pump === undefined ? (
            <Refusal text={`No pump record is called ${id}.`} />
          ) : (
            <>
              <p>
                <a href={address.pump(id)}>{pump.name}</a>
                {sheet === null
                  ? ': no sheet is filed yet.'
                  : `: begins with the sheet of ${sheet.measuredOn}, ${sheet.occasion}.`}{' '}
                What was not measured stays empty.
              </p>
              <StripForm pump={pump} sheet={sheet} />
            </>
          )
        }
      </Awaited>
    </>
  );
}
