import { css } from 'lit';

/** Rows of tools, lists of what is worth a look, and things to press that are no buttons: of the sheet and of the owner’s desk. */
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

  .sheet-of {
    --_text-size: calc(0.93 * var(--baysheet-text-size, 0.875rem));
    background: var(--_paper);
    border: 1px solid var(--_rule);
  }

  .popups {
    position: relative;
    z-index: 20;
  }
`;
