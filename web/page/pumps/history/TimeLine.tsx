import type { ComponentChildren } from 'preact';
import { RUN_KIND_WORDS } from '../../../../analysis/runKindWords.ts';
import type { PumpHistory } from '../../../api.ts';
import { address } from '../../shell/route.ts';
import { wallTime } from '../../words/moments.ts';

type Event = {
  readonly key: string;
  readonly atUtc: string;
  readonly shape: string;
  readonly words: ComponentChildren;
};

function eventsOf({ strips, runs, certificates }: PumpHistory): readonly Event[] {
  return [
    ...strips.map(({ id, version, measuredOn, occasion, measuredBy }) => ({
      key: `strip ${id} ${version}`,
      atUtc: measuredOn,
      shape: '◇',
      words: `strip sheet, ${occasion}, measured by ${measuredBy}`,
    })),
    ...runs.map((run) => ({
      key: run.id,
      atUtc: run.startedAtUtc,
      shape: '○',
      words: (
        <>
          <a href={address.run(run.id)}>{RUN_KIND_WORDS[run.kind]}</a>, {run.label}: {run.outcome ?? 'not analysed yet'}
        </>
      ),
    })),
    ...certificates.map((certificate) => ({
      key: certificate.number,
      atUtc: certificate.issuedAtUtc,
      shape: '■',
      words: (
        <>
          <a href={address.certificate(certificate.number)}>certificate {certificate.number}</a>: {certificate.outcome}
          {certificate.isSpecimen && ', SPECIMEN'}
          {certificate.standing !== 'issued' && `, ${certificate.standingNote}`}
        </>
      ),
    })),
  ].toSorted((a, b) => b.atUtc.localeCompare(a.atUtc));
}

/** Everything that was done to a pump on one line, the newest first. */
export function TimeLine({ history }: { readonly history: PumpHistory }) {
  const events = eventsOf(history);
  if (events.length === 0) {
    return (
      <p>
        Nothing yet. Its first run is started at <a href={address.bench}>the bench</a>.
      </p>
    );
  }
  return (
    <ol class="time-line" data-testid="time-line">
      {events.map(({ key, atUtc, shape, words }) => (
        <li key={key}>
          <span aria-hidden="true" class="time-line-shape">
            {shape}
          </span>
          <time dateTime={atUtc}>{atUtc.length > 10 ? wallTime(atUtc) : atUtc}</time> <span>{words}</span>
        </li>
      ))}
    </ol>
  );
}
