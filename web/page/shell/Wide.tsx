import type { ComponentChildren } from 'preact';

/** Something wider than a narrow screen: it scrolls by itself, by keyboard too. */
export function Wide({ label, children }: { readonly label: string; readonly children: ComponentChildren }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a stretch that scrolls must be reached by keyboard (WCAG 2.1.1)
    <section class="scroll" tabIndex={0} aria-label={label}>
      {children}
    </section>
  );
}
