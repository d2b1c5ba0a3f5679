import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import type { CertificateListEntry } from '../../api.ts';
import { TickOf, WordsInput } from '../forms/Fields.tsx';
import { FormEnd } from '../forms/FormEnd.tsx';
import { ask } from '../shell/ask.ts';
import { useNoticeForm } from './useNoticeForm.ts';

/** Withdraws a certificate: signed, chained, and never taken back, so it is confirmed first. */
export function WithdrawForm({
  data,
  onWithdrawn,
}: {
  readonly data: CertificateData;
  readonly onWithdrawn: (listed: CertificateListEntry) => void;
}) {
  const { form, action, signatory, reason, doing } = useNoticeForm(
    `withdraw.${data.number}`,
    data,
    'in the notice',
    (draft) =>
      draft.text('isSure')?.trim() === 'yes' ? {} : { isSure: 'a withdrawal is for good: tick that it is meant' },
  );
  const withdraw = doing(async () => {
    onWithdrawn(await ask.withdrawCertificate(data.number, { signatory, reason }));
    form.draft.clear();
  });
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
          draft={form.draft}
          action={action}
          label={`Withdraw ${data.number}`}
          wrong={form.refused}
          shown={['reason', 'signatory']}
        />
      </form>
    </details>
  );
}
