import { css } from 'lit';

/** The printed estimate: tables that run over pages with their heads repeated, rows never cut, totals kept together. */
export const paperStyles = css`
  @media print {
    :host {
      container-type: normal;
      background: none;
    }

    .screen {
      display: none;
    }

    .sheet {
      display: block;
      padding: 0;
    }

    .print {
      display: block;
    }

    .print h2 {
      margin-block-end: 0.5rem;
      font-size: 1.5em;
    }

    .print dl {
      display: grid;
      gap: 0.25rem;
      padding-block: 0.5rem;
      border-block: 1px solid var(--_rule-strong);
    }

    .print dl > div {
      display: grid;
      grid-template-columns: 6rem 1fr;
    }

    .print dt {
      color: var(--_ink-quiet);
    }

    .print .part {
      margin-block-start: 0.75rem;
    }

    .print table {
      margin-block-start: 1.25rem;
      break-inside: auto;
    }

    .print caption {
      padding-block-end: 0.25rem;
      font-weight: 650;
      text-align: start;
    }

    .print :is(th, td) {
      padding: 0.25rem 0.75rem 0.25rem 0;
      border-block-end: 1px solid var(--_rule);
      font-weight: normal;
      text-align: start;
      vertical-align: baseline;
    }

    .print :is(th, td):last-child {
      padding-inline-end: 0;
    }

    .print .figure {
      text-align: end;
    }

    .print thead th {
      border-block-end-color: var(--_rule-strong);
      color: var(--_ink-quiet);
      vertical-align: bottom;
      white-space: normal;
    }

    .print .sub td:first-child {
      padding-inline-start: 1rem;
      color: var(--_ink-quiet);
    }

    .print .foot {
      max-inline-size: 24rem;
      margin-block-start: 1.25rem;
      margin-inline-start: auto;
      break-inside: avoid;
    }
  }
`;
