import { useState } from 'preact/hooks';
import { RUN_KIND_WORDS } from '../../../analysis/runKindWords.ts';
import type { CertificateListEntry, RunListEntry, RunView } from '../../api.ts';
import { ask } from '../shell/ask.ts';
import { Awaited, Refusal } from '../shell/Entry.tsx';
import { type Action, useAction } from '../shell/useAction.ts';
import { useAnswer } from '../shell/useAnswer.ts';
import { wallTime } from '../words/moments.ts';

/** Address of a filed certificate. */
export function pdfAddress(number: string): string {
  return `/api/certificates/${encodeURIComponent(number)}.pdf`;
}

/** What is done while the button waits, and how long it takes. */
export function UnderWayFiling({ action }: { readonly action: Action }) {
  return (
    <p role="status" class="under-way">
      {action.isUnderWay &&
        'Every run is read and analysed again from its journal, then the certificate is set and signed: some seconds.'}
    </p>
  );
}

function Filed({ certificate }: { readonly certificate: CertificateListEntry }) {
  return (
    <p role="status" data-testid="filed">
      Certificate {certificate.number} is filed: {certificate.outcome}
      {certificate.isSpecimen && <strong class="specimen"> SPECIMEN</strong>}.{' '}
      <a href={pdfAddress(certificate.number)}>Open the PDF of {certificate.number}</a>
    </p>
  );
}

function FilingForm({ view, others }: { readonly view: RunView; readonly others: readonly RunListEntry[] }) {
  const action = useAction();
  const [filed, setFiled] = useState<CertificateListEntry | null>(null);
  const file = (event: SubmitEvent): void => {
    event.preventDefault();
    if (!(event.currentTarget instanceof HTMLFormElement)) return;
    const form = new FormData(event.currentTarget);
    const signatory = form.get('signatory');
    const chosen = others.filter(({ id }) => form.getAll('runs').includes(id)).map(({ id }) => id);
    action.run(async () => {
      setFiled(
        await ask.fileCertificate({
          runIds: [view.run.id, ...chosen],
          signatory: typeof signatory === 'string' ? signatory : '',
        }),
      );
    });
  };
  return (
    <form onSubmit={file} data-testid="file-certificate">
      {others.length > 0 && (
        <fieldset>
          <legend>Other runs of this pump on the same certificate</legend>
          {others.map((run) => (
            <label key={run.id} class="choice">
              <input type="checkbox" name="runs" value={run.id} />
              <span>
                {RUN_KIND_WORDS[run.kind]}, {wallTime(run.startedAtUtc)}, {run.label}: {run.outcome ?? 'not analysed'}
              </span>
            </label>
          ))}
        </fieldset>
      )}
      <div class="fields">
        <label class="field">
          <span>signed by</span>
          <input type="text" name="signatory" defaultValue={view.run.operator} required maxLength={100} />
        </label>
      </div>
      <button type="submit" class="chief" disabled={action.isUnderWay}>
        File certificate
      </button>
      <UnderWayFiling action={action} />
      <Refusal text={action.refusal} />
      {filed !== null && <Filed certificate={filed} />}
    </form>
  );
}

/** Files a certificate from this run, and from others of the same pump where they are ticked. */
export function FileCertificate({ view }: { readonly view: RunView }) {
  const runs = useAnswer(view.run.id, ask.runs);
  const bars = view.result.findings.filter(({ severity }) => severity === 'unfit');
  if (bars.length > 0) {
    return (
      <p data-testid="no-certificate">
        No certificate is filed from this run: {bars.map(({ text }) => text).join(' ')}
      </p>
    );
  }
  return (
    <Awaited answer={runs}>
      {(list) => (
        <FilingForm
          view={view}
          others={list.filter(
            ({ id, pumpId, ending }) => id !== view.run.id && pumpId === view.run.pump.id && ending !== 'open',
          )}
        />
      )}
    </Awaited>
  );
}
