import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import { RUN_KIND_WORDS } from '../../../analysis/runKindWords.ts';
import type { CertificateListEntry, RunListEntry } from '../../api.ts';
import { TickOf, WordsInput } from '../forms/Fields.tsx';
import { FormEnd } from '../forms/FormEnd.tsx';
import type { Draft } from '../forms/formState.ts';
import { UnderWayFiling } from '../runs/FileCertificate.tsx';
import { ask } from '../shell/ask.ts';
import { Awaited } from '../shell/Entry.tsx';
import { address, goTo } from '../shell/route.ts';
import { useAnswer } from '../shell/useAnswer.ts';
import { wallTime } from '../words/moments.ts';
import { useNoticeForm } from './useNoticeForm.ts';

type Props = { readonly data: CertificateData; readonly onReplaced: (listed: CertificateListEntry) => void };

function FormOf({ data, onReplaced, runs }: Props & { readonly runs: readonly RunListEntry[] }) {
  const before = new Set(data.runs.map(({ id }) => id));
  const chosenBy = (draft: Draft): readonly string[] =>
    runs.map(({ id }) => id).filter((id) => (draft.text(`run.${id}`) ?? (before.has(id) ? 'yes' : 'no')) === 'yes');
  const { form, action, signatory, reason, doing } = useNoticeForm(
    `replace.${data.number}`,
    data,
    'on the new certificate',
    (draft) => (chosenBy(draft).length === 0 ? { runs: 'the new certificate rests on one run at least' } : {}),
  );
  const replace = doing(async () => {
    const runIds = chosenBy(form.draft);
    const filed = await ask.fileCertificate({ runIds, signatory, replaces: { number: data.number, reason } });
    form.draft.clear();
    const listed = await ask.certificate(data.number);
    if (listed !== null) onReplaced(listed);
    goTo(address.certificate(filed.number));
  });
  return (
    <form onSubmit={replace} noValidate data-testid="replace">
      <fieldset>
        <legend>Runs that the new certificate rests on</legend>
        {runs.map((run) => (
          <TickOf
            key={run.id}
            form={form}
            name={`run.${run.id}`}
            label={`${RUN_KIND_WORDS[run.kind]}, ${wallTime(run.startedAtUtc)}, ${run.label}: ${run.outcome ?? 'not analysed'}`}
            usual={before.has(run.id)}
          />
        ))}
      </fieldset>
      <div class="fields">
        <WordsInput form={form} name="reason" label="why it is replaced" />
        <WordsInput form={form} name="signatory" label="signed by" />
      </div>
      <FormEnd
        draft={form.draft}
        action={action}
        label={`File a certificate in place of ${data.number}`}
        wrong={form.refused}
        shown={['reason', 'signatory']}
      />
      <UnderWayFiling action={action} />
    </form>
  );
}

/** Files a certificate that takes this one's place. */
export function ReplaceForm(props: Props) {
  const runs = useAnswer('runs', ask.runs);
  return (
    <details>
      <summary>Another certificate is to take its place</summary>
      <Awaited answer={runs}>
        {(list) => (
          <FormOf
            {...props}
            runs={list.filter(({ pumpId, ending }) => pumpId === props.data.pump.id && ending !== 'open')}
          />
        )}
      </Awaited>
    </details>
  );
}
