import { css } from 'lit';
import { baseStyles } from '../look/base.styles.js';
import { deskStyles } from '../look/desk.styles.js';
import { printStyles } from '../look/print.styles.js';

/** What the sections of the desk have in common. */
export const sectionStyles = [
  deskStyles,
  css`
    ins {
      text-decoration: none;
      font-weight: 650;
    }

    del {
      color: var(--_ink-quiet);
    }
  `,
];

/** The shell: head, tools, tabs. */
export const ratesStyles = [
  baseStyles,
  sectionStyles,
  css`
    :host {
      container-type: inline-size;
      background: var(--_ground);
    }

    .desk {
      display: flex;
      flex-direction: column;
      gap: var(--_gap);
      padding: var(--_gap);
    }

    .head h2 {
      font-size: 1.25em;
    }

    [role='tablist'] {
      display: flex;
      flex-wrap: wrap;
      gap: 0.25rem;
      border-block-end: 1px solid var(--_rule-strong);
    }

    [role='tab'] {
      border-block-end: 0;
      border-end-start-radius: 0;
      border-end-end-radius: 0;
      background: none;
      border-color: transparent;
    }

    [role='tab'][aria-selected='true'] {
      position: relative;
      background: var(--_paper);
      border-color: var(--_rule-strong);
      box-shadow: inset 0 3px var(--_accent);
      font-weight: 650;
    }

    [role='tabpanel']:focus-visible {
      outline-offset: 4px;
    }

    .kept {
      padding-inline-start: 0.75rem;
      border-inline-start: 3px solid var(--_accent);
    }
  `,
  printStyles,
];
