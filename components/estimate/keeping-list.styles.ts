import { css } from 'lit';

export const keepingListStyles = css`
  dialog {
    width: min(72rem, calc(100vw - 2rem));
  }

  .head,
  .said {
    display: flex;
    flex-wrap: wrap;
    gap: 0.5rem;
    align-items: end;
  }

  .head .field {
    flex: 1 1 14rem;
  }

  .said {
    align-items: center;
    padding: 0.375rem 0.75rem;
    border-inline-start: 3px solid var(--_rule-strong);
    background: var(--_band);
  }

  .said > span {
    flex: 1 1 16rem;
  }

  .scroll {
    overflow: auto;
    max-block-size: min(28rem, 55vh);
  }

  table.ruled {
    width: 100%;
  }

  thead th {
    position: sticky;
    inset-block-start: 0;
    background: var(--_paper);
    white-space: nowrap;
  }

  .whole {
    white-space: nowrap;
  }

  tr.current {
    background: var(--_accent-wash);
  }

  .open {
    min-height: 1.75rem;
    padding: 0.125rem 0.25rem;
    border-color: transparent;
    background: none;
    color: var(--_accent);
    font-weight: 650;
    text-align: start;
    text-decoration: underline;
    text-underline-offset: 0.2em;
  }

  .row-buttons {
    white-space: nowrap;
    text-align: end;
  }

  .row-buttons button {
    min-height: 1.75rem;
    padding: 0.125rem 0.5rem;
  }

  /* On a phone a row is a card: number and total, customer and plate, what to do. */
  @media (max-width: 40rem) {
    thead,
    .aside {
      display: none;
    }

    table.ruled tr {
      display: grid;
      grid-template-columns: 1fr auto;
      padding-block: 0.375rem;
      border-block-end: 1px solid var(--_rule);
    }

    table.ruled :is(th, td) {
      padding-block: 0.125rem;
      border: 0;
    }

    table.ruled .figure {
      grid-area: 1 / 2;
    }

    .row-buttons {
      grid-column: 1 / -1;
    }
  }
`;
