import { css } from 'lit';

/**
 * The custom properties that set the look, each with its default. A host overrides them on the element
 * (`baysheet-estimate { --baysheet-accent: … }`). Light and dark come from `light-dark()`, so the host's
 * `color-scheme` decides, and the reader's own preference where the host says nothing.
 */
export const tokens = css`
  :host {
    /* Words */
    --_font: var(--baysheet-font, system-ui, 'Segoe UI', 'Noto Sans', 'Liberation Sans', sans-serif);
    --_text-size: var(--baysheet-text-size, 0.875rem);
    --_ink: var(--baysheet-ink, light-dark(#1f2a2e, #e4e8e6));
    --_ink-quiet: var(--baysheet-ink-quiet, light-dark(#56646a, #a3b0b1));
    /* Grounds */
    --_paper: var(--baysheet-paper, light-dark(#fffefb, #171c1e));
    --_ground: var(--baysheet-ground, light-dark(#f4f2ec, #101415));
    --_band: var(--baysheet-band, light-dark(#eceae2, #222a2c));
    --_rule: var(--baysheet-rule, light-dark(#d3d0c5, #37423f));
    --_rule-strong: var(--baysheet-rule-strong, light-dark(#7d8480, #76837f));
    /* The one accent */
    --_accent: var(--baysheet-accent, light-dark(#1d5b63, #7cc4c6));
    --_accent-ink: var(--baysheet-accent-ink, light-dark(#ffffff, #0d1a1b));
    --_accent-wash: var(--baysheet-accent-wash, light-dark(#e0ecea, #1f3436));
    /* An entry that cannot be used: said in words, underlined; this only tints the line */
    --_fault: var(--baysheet-fault, light-dark(#8a2f1d, #f0a58f));
    /* Measures */
    --_gap: var(--baysheet-gap, 1rem);
    --_radius: var(--baysheet-radius, 3px);
    --_focus: var(--baysheet-focus, 2px solid var(--_accent));
  }
`;
