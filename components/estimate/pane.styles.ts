import { css } from 'lit';

/** What the panes beside the grids have in common: fields in columns that fall to one, lists, quiet hints below a field. */
export const paneStyles = css`
  :host {
    display: block;
    container-type: inline-size;
  }

  summary {
    display: flex;
    flex-wrap: wrap;
    gap: 0 1rem;
    align-items: baseline;
    padding-block: 0.375rem;
  }

  summary::-webkit-details-marker {
    display: none;
  }

  summary::before {
    flex: none;
    align-self: center;
    width: 0.5rem;
    height: 0.5rem;
    margin-inline: 0.125rem -0.375rem;
    border: solid var(--_ink-quiet);
    border-width: 0 2px 2px 0;
    content: '';
    transform: rotate(-45deg);
  }

  details[open] > summary::before {
    transform: rotate(45deg);
  }

  summary > :is(h3, strong) {
    display: inline;
  }

  ol {
    margin: 0;
    padding: 0;
    list-style: none;
  }

  .fields {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(16rem, 100%), 1fr));
    gap: 0.75rem 1rem;
  }

  .field {
    display: grid;
    gap: 0.125rem;
    align-content: start;
    min-width: 0;
  }

  .field > label,
  .field > .label {
    font-size: 0.9em;
  }

  .whole {
    grid-column: 1 / -1;
  }

  .hint {
    font-size: 0.9em;
    line-height: 1.35;
  }

  .buttons {
    display: flex;
    flex-wrap: wrap;
    gap: 0.375rem 0.5rem;
    align-items: center;
  }

  .check {
    display: flex;
    gap: 0.5rem;
    align-items: center;
    color: var(--_ink);
  }

  .caution {
    padding-inline-start: 0.75rem;
    border-inline-start: 3px double var(--_rule-strong);
  }

  .list {
    display: grid;
    gap: 0.375rem;
  }

  textarea {
    min-height: 2rem;
  }
`;
