import { css } from 'lit';

/** The parts run on a screen: a table by supplier that falls apart into cards where it is narrow. */
export const partsRunStyles = css`
  dialog {
    width: min(72rem, calc(100vw - 2rem));
  }

  .body {
    container-type: inline-size;
  }

  .warnings {
    display: grid;
    gap: 0.25rem;
  }

  .warnings li {
    padding-inline-start: 0.75rem;
    border-inline-start: 3px solid var(--_rule-strong);
  }

  section {
    display: grid;
    gap: 0.25rem;
  }

  section li {
    display: flex;
    flex-wrap: wrap;
    gap: 0.5rem;
    align-items: center;
  }

  .counter {
    display: flex;
    flex-wrap: wrap;
    gap: 0.25rem 1rem;
    align-items: center;
    justify-content: space-between;
    padding-block-start: 0.5rem;
    border-block-start: 1px solid var(--_rule-strong);
  }

  .counter select {
    width: auto;
  }

  th,
  td {
    padding: 0.25rem 0.75rem 0.25rem 0;
    vertical-align: top;
  }

  thead th {
    color: var(--_ink-quiet);
  }

  tbody tr {
    border-block-start: 1px solid var(--_rule);
  }

  .figure {
    padding-inline-end: 1rem;
    width: 4rem;
  }

  .qty {
    font-size: 1.2em;
    font-weight: 650;
    line-height: 1.2;
  }

  tbody th {
    min-width: 12rem;
    font-weight: 600;
  }

  .number,
  .back {
    display: block;
    font-weight: normal;
    font-variant-numeric: tabular-nums;
  }

  .number,
  .for {
    color: var(--_ink-quiet);
  }

  .state {
    width: 9rem;
  }

  .note {
    width: 13rem;
  }

  .changed {
    display: block;
  }

  .link {
    min-height: 1.5rem;
    padding: 0;
    border: 0;
    background: none;
    color: var(--_ink-quiet);
    font-size: 0.9em;
    text-decoration: underline;
    text-underline-offset: 0.2em;
  }

  .buttons {
    position: sticky;
    inset-block-end: -1.25rem;
    padding-block: 0.75rem;
    background: var(--_paper);
    border-block-start: 1px solid var(--_rule);
  }

  @container (max-width: 48rem) {
    thead {
      display: none;
    }

    table,
    tbody {
      display: block;
    }

    tbody tr {
      display: grid;
      grid-template-columns: 2.5rem minmax(0, 1fr) minmax(0, 1fr);
      gap: 0.25rem 0.5rem;
      padding-block: 0.5rem;
    }

    tbody :is(th, td) {
      grid-column: 2 / -1;
      width: auto;
      min-width: 0;
      padding: 0;
    }

    tbody .qty {
      grid-column: 1;
      grid-row: 1;
      text-align: start;
    }

    tbody th {
      grid-row: 1;
    }

    tbody .state {
      grid-column: 2;
      width: auto;
    }

    tbody .note {
      grid-column: 3;
      width: auto;
    }
  }
`;
