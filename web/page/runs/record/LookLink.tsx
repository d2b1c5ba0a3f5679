import type { ComponentChildren } from 'preact';
import { address } from '../../shell/route.ts';

/** Leads to a stretch of a run's record. */
export function LookLink(link: {
  readonly runId: string;
  readonly fromS: number;
  readonly toS: number;
  readonly children: ComponentChildren;
}) {
  const { runId, fromS, toS, children } = link;
  const show = (): void => document.querySelector('[data-testid="record"]')?.scrollIntoView({ block: 'start' });
  return (
    <a href={address.stretch(runId, fromS, toS)} onClick={show}>
      {children}
    </a>
  );
}
