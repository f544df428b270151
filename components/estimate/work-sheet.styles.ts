import { css } from 'lit';

/** The work sheet: type to read at arm's length, boxes in one column, rails for what is open. Paper first. */
export const workSheetStyles = css`
  :host {
    background: var(--_paper);
    font-size: 1rem !important;
  }

  .pages {
    display: table;
    width: 100%;
    table-layout: fixed;
  }

  /* On paper alone, where it is repeated on each page. */
  .running {
    display: none;
  }

  .rest {
    display: table-row-group;
  }

  .rest-cell,
  .running-line {
    display: table-cell;
  }

  .running > .running-line {
    padding-block-end: 0.5rem;
  }

  .running-line > * {
    margin-inline-end: 1.5rem;
    font-size: 0.85em;
  }

  .running-line > strong {
    margin: 0;
  }

  h2 {
    font-size: 1.75em;
  }

  h3 {
    font-size: 1.1em;
  }

  dl {
    display: grid;
    grid-template-columns: 2.25fr 1fr 1.25fr;
    gap: 0.375rem 1.5rem;
    padding-block: 0.5rem;
    border-block: 2px solid var(--_rule-strong);
  }

  dl > .whole {
    grid-column: 1 / -1;
  }

  dt {
    color: var(--_ink-quiet);
    font-size: 0.8em;
  }

  dd {
    font-weight: 650;
    overflow-wrap: anywhere;
  }

  .whole dd {
    font-weight: normal;
  }

  .blank {
    min-height: 1.4em;
    border-block-end: 1px solid var(--_rule-strong);
  }

  .warnings,
  .loose,
  .order {
    margin-block-start: 0.75rem;
  }

  .warnings li {
    padding: 0.375rem 0.75rem;
    border: 2px solid var(--_rule-strong);
  }

  .warnings li + li {
    border-block-start: 0;
  }

  .loose li {
    display: flex;
    gap: 0.75rem;
    padding-block: 0.25rem;
  }

  .box {
    display: inline-block;
    flex: none;
    width: 1.1em;
    height: 1.1em;
    border: 1.5px solid var(--_ink);
    border-radius: 2px;
    vertical-align: text-bottom;
  }

  .order {
    margin-block-end: 0;
    padding: 0;
    list-style: none;
  }

  /* An entry is a row without gaps, so that the rails of one go on in the next. */
  .entry {
    display: flex;
    break-inside: avoid;
  }

  .entry > .box {
    margin-block-start: 0.4rem;
  }

  .entry > .n {
    flex: none;
    width: 2.25rem;
    padding-block-start: 0.3rem;
    padding-inline-end: 0.625rem;
    font-variant-numeric: tabular-nums;
    text-align: end;
  }

  .rail,
  .mouth {
    flex: none;
    width: 0.875rem;
    border-inline-start: 1.5px solid var(--_rule-strong);
  }

  .open > .mouth {
    height: calc(100% - 0.9rem);
    min-height: 0.75rem;
    align-self: end;
    border-block-start: 1.5px solid var(--_rule-strong);
  }

  .close > .mouth {
    margin-block-end: 0.25rem;
    border-block-end: 1.5px solid var(--_rule-strong);
  }

  .told {
    flex: 1;
    min-width: 0;
    padding-block: 0.25rem;
    padding-inline-start: 0.375rem;
  }

  .open {
    break-after: avoid;
  }

  .what {
    display: inline-block;
    min-width: 3.25rem;
    margin-inline-end: 0.375rem;
    color: var(--_ink-quiet);
    font-size: 0.8em;
  }

  .work > .told {
    padding-block: 0.5rem;
  }

  .job {
    font-size: 1.15em;
  }

  .job .what {
    font-size: 0.7em;
  }

  .caution {
    margin-block-end: 0.25rem;
    padding-inline-start: 0.625rem;
    border-inline-start: 4px double var(--_ink);
  }

  .caution.again {
    font-size: 0.85em;
  }

  .parts {
    padding-block: 0.125rem;
  }

  .parts li {
    display: flex;
    gap: 0.5rem;
    align-items: baseline;
  }

  .parts .box {
    width: 0.85em;
    height: 0.85em;
    align-self: center;
  }

  .parts .called {
    flex: none;
    width: 7rem;
    color: var(--_ink-quiet);
  }

  .parts .qty {
    flex: none;
    min-width: 2rem;
    font-variant-numeric: tabular-nums;
    text-align: end;
  }

  .number {
    color: var(--_ink-quiet);
    white-space: nowrap;
  }

  .result,
  .signed {
    display: flex;
    flex-wrap: wrap;
    gap: 0.75rem 2rem;
    align-items: end;
    padding-block: 0.5rem;
  }

  .signed > span {
    flex: 1;
    white-space: nowrap;
  }

  .line {
    display: inline-block;
    width: 10rem;
    height: 1.25rem;
    border-block-end: 1px solid var(--_rule-strong);
  }

  .signed .line {
    width: 8rem;
  }

  .found .line {
    display: block;
    width: 100%;
    height: 1.75rem;
  }

  footer {
    display: grid;
    gap: 0.75rem;
    margin-block-start: 1.25rem;
    padding-block-start: 0.5rem;
    border-block-start: 2px solid var(--_rule-strong);
    break-inside: avoid;
  }

  @media print {
    :host {
      font-size: 11pt !important;
      line-height: 1.35 !important;
    }

    .pages {
      break-inside: auto;
    }

    .running {
      display: table-header-group;
      break-inside: avoid;
    }

    .entry > .told {
      padding-block: 0.125rem;
    }

    .work > .told {
      padding-block: 0.25rem 0.375rem;
    }
  }

  @media (max-width: 36rem) {
    .rail,
    .mouth {
      width: 0.5rem;
    }

    dl {
      grid-template-columns: 1fr 1fr;
    }

    .parts .called {
      width: 3.5rem;
    }
  }
`;
