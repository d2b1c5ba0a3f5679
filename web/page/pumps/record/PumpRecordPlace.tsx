import { ask } from '../../shell/ask.ts';
import { Awaited, Refusal } from '../../shell/Entry.tsx';
import { useAnswer } from '../../shell/useAnswer.ts';
import { PumpForm } from './PumpForm.tsx';

/** A new pump, or the record of one put right. */
export function PumpRecordPlace({ id }: { readonly id: string | null }) {
  const pumps = useAnswer('pumps', ask.pumps);
  return (
    <>
      <h1>{id === null ? 'A new pump' : 'The record put right'}</h1>
      {id === null ? (
        <>
          <p>
            Type lengths as you read them: 42, 42 mm or 1 21/32 in. What stands in a field is kept in this browser until
            the record is filed.
          </p>
          <PumpForm pump={null} />
        </>
      ) : (
        <Awaited answer={pumps}>
          {(list) => {
            const pump = list.find((candidate) => candidate.id === id);
            return pump === undefined ? (
              <Refusal text={`No pump record is called ${id}.`} />
            ) : (
              <>
                <p>Nothing filed is rewritten: this becomes the next version, and earlier runs keep theirs.</p>
                <PumpForm pump={pump} />
              </>
            );
          }}
        </Awaited>
      )}
    </>
  );
}
