import { css } from 'lit';

/**
 * Paper: dark ink on white whatever the screen's scheme, nothing cut off, nothing that only a screen can use
 * (`.screen-only`). The size of the page itself is the business of the document that is printed: `@page` has no effect
 * inside a shadow root.
 */
export const printStyles = css`
  @media print {
    :host {
      --_ink: #000000;
      --_ink-quiet: #3a3a3a;
      --_paper: #ffffff;
      --_ground: #ffffff;
      --_band: #ffffff;
      --_rule: #b4b4b4;
      --_rule-strong: #5c5c5c;
      --_accent: #1d5b63;
      --_accent-ink: #ffffff;
      --_accent-wash: #ffffff;
      --_fault: #000000;
      --_text-size: 9pt;
    }

    .screen-only {
      display: none !important;
    }

    table,
    tr,
    figure {
      break-inside: avoid;
    }

    h2,
    h3,
    caption {
      break-after: avoid;
    }

    input:not([type='checkbox']),
    select,
    textarea {
      min-height: 0;
      padding: 0;
      border-color: transparent;
      appearance: none;
      resize: none;
    }
  }
`;
