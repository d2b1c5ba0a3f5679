import { useState } from 'preact/hooks';
import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import { useDraft } from '../forms/draft.ts';
import { focusFirstWrong } from '../forms/FormEnd.tsx';
import type { Draft, FormState } from '../forms/formState.ts';
import { type Action, useAction } from '../shell/useAction.ts';
import { unitSystem } from '../words/unitSystem.ts';

/** A form by which somebody says, signed and with the reason, what becomes of a certificate. */
export type NoticeForm = {
  readonly form: FormState;
  readonly action: Action;
  readonly signatory: string;
  readonly reason: string;
  /** Handles the sending; nothing is done while anything is missing. */
  readonly doing: (work: () => Promise<void>) => (event: SubmitEvent) => void;
};

/**
 * @param draftKey - where what is typed is kept [-]
 * @param data - of the certificate: its signatory is proposed [-]
 * @param reasonIsPrinted - where the reason will stand: 'on the new certificate' [-]
 * @param alsoWrong - by field, what else is missing [-]
 */
export function useNoticeForm(
  draftKey: string,
  data: CertificateData,
  reasonIsPrinted: string,
  alsoWrong: (draft: Draft) => Readonly<Record<string, string>>,
): NoticeForm {
  const draft = useDraft(draftKey);
  const action = useAction();
  const [wasTried, setTried] = useState(false);
  const signatory = (draft.text('signatory') ?? data.signatory).trim();
  const reason = (draft.text('reason') ?? '').trim();
  const wrong: Readonly<Record<string, string>> = {
    ...(signatory === '' ? { signatory: 'is needed' } : {}),
    ...(reason === '' ? { reason: `is needed: it is printed ${reasonIsPrinted}` } : {}),
    ...alsoWrong(draft),
  };
  const doing: NoticeForm['doing'] = (work) => (event) => {
    event.preventDefault();
    setTried(true);
    if (Object.keys(wrong).length > 0) {
      if (event.currentTarget instanceof HTMLFormElement) focusFirstWrong(event.currentTarget);
      return;
    }
    action.run(work);
  };
  const form: FormState = {
    draft,
    system: unitSystem.value,
    before: (name) => (name === 'signatory' ? data.signatory : null),
    refused: wasTried ? wrong : {},
    wasTried,
  };
  return { form, action, signatory, reason, doing };
}
