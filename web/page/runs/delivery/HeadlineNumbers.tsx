import type { Demand } from '../../../../analysis/records/dutyRecord.ts';
import type { DeliveryResult, SlipLaw, Theory } from '../../../../analysis/result.ts';
import { Entry } from '../../shell/Entry.tsx';
import { pointWords } from '../../words/demandWords.ts';
import { HeadlineNumber } from '../../words/HeadlineNumber.tsx';

/** The numbers that are judged and quoted, each with what it rests on. */
export function HeadlineNumbers(props: {
  readonly result: DeliveryResult;
  readonly law: SlipLaw;
  readonly theory: Theory;
  readonly demands: readonly Demand[];
}) {
  const { result, law, theory, demands } = props;
  const atOf = (demandId: string): string => {
    const demand = demands.find(({ id }) => id === demandId);
    return demand !== undefined && 'at' in demand ? pointWords(demand.at) : demandId;
  };
  // Two demands at one point have the same flow.
  const points = new Map((result.fitted?.outlook ?? []).map((outlook) => [atOf(outlook.demandId), outlook]));
  return (
    <Entry head="The numbers">
      <p class="faint">± is the expanded uncertainty for 95 %. Open a number to see what it rests on.</p>
      <div class="headline-numbers" data-testid="headline-numbers">
        <HeadlineNumber
          name={
            <>
              derived capacity V<sub>i</sub>
            </>
          }
          stated={law.stated.derivedCapacityM3PerRev}
          unitSymbol="cm3/rev"
        />
        <HeadlineNumber
          name={
            <>
              swept volume V<sub>g</sub>
            </>
          }
          stated={theory.sweptVolumeM3PerRev}
          unitSymbol="cm3/rev"
        />
        {result.capacityRatio !== null && (
          <HeadlineNumber
            name={
              <>
                V<sub>i</sub>/V<sub>g</sub>
              </>
            }
            stated={result.capacityRatio}
            unitSymbol="%"
          />
        )}
        {[...points].map(([at, outlook]) => (
          <div key={at}>
            <p class="headline-at">at {at}:</p>
            <HeadlineNumber name="flow" stated={outlook.flowM3PerS} unitSymbol="l/min" />
            <HeadlineNumber name="slip" stated={outlook.slipM3PerS} unitSymbol="l/min" />
            <HeadlineNumber
              name={
                <>
                  volumetric efficiency, q/(V<sub>i</sub> n)
                </>
              }
              stated={outlook.derivedEfficiency}
              unitSymbol="%"
            />
          </div>
        ))}
      </div>
    </Entry>
  );
}
