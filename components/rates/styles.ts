import { css } from 'lit';
import { baseStyles } from '../look/base.styles.js';
import { printStyles } from '../look/print.styles.js';

/** What the sections of the desk have in common. */
export const deskStyles = css`
  .tools,
  .band {
    display: flex;
    flex-wrap: wrap;
    gap: 0.375rem 0.5rem;
    align-items: center;
  }

  .tools {
    padding-block: 0.375rem;
    border-block: 1px solid var(--_rule);
  }

  .band {
    margin-block-end: 0.375rem;
  }

  .band h2 {
    font-size: 1.0625em;
    margin-inline-end: 0.25rem;
  }

  .grow {
    flex: 1;
  }

  .list {
    display: grid;
    gap: 0.375rem;
    max-inline-size: 75ch;
  }

  .list .hint {
    color: var(--_ink-quiet);
  }

  .problem {
    padding-inline-start: 0.75rem;
    border-inline-start: 3px solid var(--_rule-strong);
  }

  .problem.error {
    border-inline-start-color: var(--_fault);
  }

  .button {
    display: inline-flex;
    align-items: center;
    padding: 0.25rem 0.75rem;
    min-block-size: 2rem;
    color: var(--_ink);
    background: var(--_paper);
    border: 1px solid var(--_rule-strong);
    border-radius: var(--_radius);
    cursor: pointer;
  }

  .button:focus-within {
    outline: var(--_focus);
    outline-offset: 1px;
  }

  .link {
    padding: 0;
    min-height: 1.5rem;
    border: 0;
    background: none;
    color: var(--_accent);
    font: inherit;
    text-align: start;
    text-decoration: underline;
    text-underline-offset: 0.2em;
    cursor: pointer;
  }

  ins {
    text-decoration: none;
    font-weight: 650;
  }

  del {
    color: var(--_ink-quiet);
  }
`;

/** The shell: head, tools, tabs. */
export const ratesStyles = [
  baseStyles,
  deskStyles,
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
