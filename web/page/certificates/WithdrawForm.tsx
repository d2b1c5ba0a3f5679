import { useState } from 'preact/hooks';
import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import type { CertificateListEntry } from '../../api.ts';
import { useDraft } from '../forms/draft.ts';
import { TickOf, WordsInput } from '../forms/Fields.tsx';
import { FormEnd, focusFirstWrong } from '../forms/FormEnd.tsx';
import type { FormState } from '../forms/formState.ts';
import { ask } from '../shell/ask.ts';
import { useAction } from '../shell/useAction.ts';
import { unitSystem } from '../words/unitSystem.ts';

/** Withdraws a certificate: signed, chained, and never taken back, so it is confirmed first. */
export function WithdrawForm({
  data,
  onWithdrawn,
}: {
  readonly data: CertificateData;
  readonly onWithdrawn: (listed: CertificateListEntry) => void;
}) {
  const draft = useDraft(`withdraw.${data.number}`);
  const action = useAction();
  const [wasTried, setTried] = useState(false);
  const words = (name: string): string => draft.text(name)?.trim() ?? '';
  const signatory = (draft.text('signatory') ?? data.signatory).trim();
  const wrong: Record<string, string> = {};
  if (signatory === '') wrong.signatory = 'is needed';
  if (words('reason') === '') wrong.reason = 'is needed: it is printed in the notice';
  if (words('isSure') !== 'yes') wrong.isSure = 'a withdrawal is for good: tick that it is meant';
  const form: FormState = {
    draft,
    system: unitSystem.value,
    before: (name) => (name === 'signatory' ? data.signatory : null),
    refused: wasTried ? wrong : {},
    wasTried,
  };
  const withdraw = (event: SubmitEvent): void => {
    event.preventDefault();
    setTried(true);
    if (Object.keys(wrong).length > 0) {
      if (event.currentTarget instanceof HTMLFormElement) focusFirstWrong(event.currentTarget);
      return;
    }
    action.run(async () => {
      onWithdrawn(await ask.withdrawCertificate(data.number, { signatory, reason: words('reason') }));
      draft.clear();
    });
  };
  return (
    <details>
      <summary>This certificate must not be relied on any more</summary>
      <form onSubmit={withdraw} noValidate data-testid="withdraw">
        <p>
          A signed notice is filed beside it. Whoever has the paper does not see it there: send them word, and have them
          verify the file here.
        </p>
        <div class="fields">
          <WordsInput form={form} name="reason" label="why it is withdrawn" />
          <WordsInput form={form} name="signatory" label="signed by" />
        </div>
        <TickOf form={form} name="isSure" label="It is meant: a withdrawal cannot be taken back." usual={false} />
        <FormEnd
          draft={draft}
          action={action}
          label={`Withdraw ${data.number}`}
          wrong={form.refused}
          shown={['reason', 'signatory']}
        />
      </form>
    </details>
  );
}
