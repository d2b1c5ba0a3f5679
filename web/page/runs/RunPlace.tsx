import { useState } from 'preact/hooks';
import { RUN_KIND_WORDS } from '../../../analysis/runKindWords.ts';
import type { RunView } from '../../api.ts';
import { ask } from '../shell/ask.ts';
import { Awaited, Entry } from '../shell/Entry.tsx';
import { address } from '../shell/route.ts';
import { useAnswer } from '../shell/useAnswer.ts';
import { wallTime } from '../words/moments.ts';
import { ENDING_WORDS } from '../words/runWords.ts';
import { verdictSentence } from '../words/verdictSentence.ts';
import { Conditions } from './Conditions.tsx';
import { CompareWith } from './compare/CompareWith.tsx';
import { DryLiftPassage } from './DryLiftPassage.tsx';
import { ChangedNumbers } from './delivery/ChangedNumbers.tsx';
import { DeliveryPassage } from './delivery/DeliveryPassage.tsx';
import { EarlierRuns } from './delivery/EarlierRuns.tsx';
import { FileCertificate } from './FileCertificate.tsx';
import { FindingList } from './FindingList.tsx';
import { ReliefPassage } from './ReliefPassage.tsx';
import { RecordPassage } from './record/RecordPassage.tsx';
import { SuctionPassage } from './SuctionPassage.tsx';
import { VerdictTable } from './VerdictTable.tsx';

function Told({
  view,
  before,
  onView,
}: {
  readonly view: RunView;
  /** As it was before the last change; null: nothing was changed. */
  readonly before: RunView | null;
  readonly onView: (view: RunView) => void;
}) {
  const { run, closing, result } = view;
  return (
    <>
      <h1>
        {run.pump.name} · {RUN_KIND_WORDS[run.kind]}
      </h1>
      <p>
        {wallTime(run.startedAtUtc)}, {run.label}, by {run.operator}; {ENDING_WORDS[closing.ending]}:{' '}
        {closing.reason.replace(/\.$/, '')}. <span class="unbroken">Pump no. {run.pump.serialNumber}</span>,{' '}
        <a href={address.pump(run.pump.id)}>its record and runs</a>.
      </p>
      <Entry head="Verdict">
        {result.isPractice && <p class="specimen">SPECIMEN: from a practice bench</p>}
        <p class="verdict-sentence" data-testid="verdict">
          {verdictSentence(result)}
        </p>
        <VerdictTable verdicts={result.verdicts} />
      </Entry>
      {before !== null && <ChangedNumbers before={before.result} now={result} />}
      {result.findings.length > 0 && (
        <Entry head="Findings">
          <FindingList findings={result.findings} />
        </Entry>
      )}
      {result.dryLift !== null && <DryLiftPassage view={view} result={result.dryLift} />}
      {result.delivery !== null && <DeliveryPassage view={view} result={result.delivery} onView={onView} />}
      <EarlierRuns comparison={view.comparison} />
      <Entry head="Beside others">
        <CompareWith shown={[view]} />
      </Entry>
      {result.suction !== null && <SuctionPassage view={view} result={result.suction} />}
      {result.relief !== null && <ReliefPassage view={view} result={result.relief} />}
      <RecordPassage view={view} />
      <Entry head="Conditions">
        <Conditions view={view} />
      </Entry>
      <Entry head="Certificate">
        <FileCertificate view={view} />
      </Entry>
    </>
  );
}

/** One run, from its verdict down to its raw record. */
export function RunPlace({ id }: { readonly id: string }) {
  const view = useAnswer(id, () => ask.run(id));
  // What the server answered last, once a hold was taken out or put back, and what it had answered before.
  const [changed, setChanged] = useState<{ readonly now: RunView; readonly before: RunView } | null>(null);
  return (
    <Awaited answer={view}>
      {(value) => {
        const now = changed?.now ?? value;
        return (
          <Told view={now} before={changed?.before ?? null} onView={(next) => setChanged({ now: next, before: now })} />
        );
      }}
    </Awaited>
  );
}
