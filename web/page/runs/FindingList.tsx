import type { Finding } from '../../../analysis/result.ts';

const SEVERITY_WORDS: Readonly<Record<Finding['severity'], string>> = {
  note: 'Note',
  warning: 'Look here',
  unfit: 'Bars a certificate',
};

/** What a reader must know of the run. */
export function FindingList({ findings }: { readonly findings: readonly Finding[] }) {
  return (
    <ul class="findings" data-testid="findings">
      {findings.map(({ code, severity, text }) => (
        <li key={`${code} ${text}`}>
          <strong class={severity === 'note' ? '' : 'look-here'}>{SEVERITY_WORDS[severity]}.</strong> {text}
        </li>
      ))}
    </ul>
  );
}
