import { useState } from 'preact/hooks';
import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import { RUN_KIND_WORDS } from '../../../analysis/runKindWords.ts';
import type { CertificateListEntry, RunListEntry } from '../../api.ts';
import { useDraft } from '../forms/draft.ts';
import { TickOf, WordsInput } from '../forms/Fields.tsx';
import { FormEnd, focusFirstWrong } from '../forms/FormEnd.tsx';
import type { FormState } from '../forms/formState.ts';
import { ask } from '../shell/ask.ts';
import { Awaited } from '../shell/Entry.tsx';
import { address, goTo } from '../shell/route.ts';
import { useAction } from '../shell/useAction.ts';
import { useAnswer } from '../shell/useAnswer.ts';
import { wallTime } from '../words/moments.ts';
import { unitSystem } from '../words/unitSystem.ts';

type Props = { readonly data: CertificateData; readonly onReplaced: (listed: CertificateListEntry) => void };

function FormOf({ data, onReplaced, runs }: Props & { readonly runs: readonly RunListEntry[] }) {
  const draft = useDraft(`replace.${data.number}`);
  const action = useAction();
  const [wasTried, setTried] = useState(false);
  const before = new Set(data.runs.map(({ id }) => id));
  const isTicked = ({ id }: RunListEntry): boolean =>
    (draft.text(`run.${id}`) ?? (before.has(id) ? 'yes' : 'no')) === 'yes';
  const chosen = runs.filter(isTicked).map(({ id }) => id);
  const signatory = (draft.text('signatory') ?? data.signatory).trim();
  const reason = (draft.text('reason') ?? '').trim();
  const wrong: Record<string, string> = {};
  if (signatory === '') wrong.signatory = 'is needed';
  if (reason === '') wrong.reason = 'is needed: it is printed on the new certificate';
  if (chosen.length === 0) wrong.runs = 'the new certificate rests on one run at least';
  const form: FormState = {
    draft,
    system: unitSystem.value,
    before: (name) => (name === 'signatory' ? data.signatory : null),
    refused: wasTried ? wrong : {},
    wasTried,
  };
  const replace = (event: SubmitEvent): void => {
    event.preventDefault();
    setTried(true);
    if (Object.keys(wrong).length > 0) {
      if (event.currentTarget instanceof HTMLFormElement) focusFirstWrong(event.currentTarget);
      return;
    }
    action.run(async () => {
      const filed = await ask.fileCertificate({ runIds: chosen, signatory, replaces: { number: data.number, reason } });
      draft.clear();
      const listed = (await ask.certificates()).find(({ number }) => number === data.number);
      if (listed !== undefined) onReplaced(listed);
      goTo(address.certificate(filed.number));
    });
  };
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
        draft={draft}
        action={action}
        label={`File a certificate in place of ${data.number}`}
        wrong={form.refused}
        shown={['reason', 'signatory']}
      />
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
