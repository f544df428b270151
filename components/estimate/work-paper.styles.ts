import { css } from 'lit';

/** What the printed parts run and write-up have beyond the printed estimate. */
export const workPaperStyles = css`
  @media print {
    .print.parts-run,
    .print.write-up {
      font-size: 10.5pt;
    }

    .print .notice {
      margin-block-start: 0.5rem;
      padding: 0.25rem 0.5rem;
      border: 1.5px solid var(--_rule-strong);
    }

    .print .box {
      display: inline-block;
      width: 1em;
      height: 1em;
      border: 1.5px solid var(--_ink);
      border-radius: 2px;
      vertical-align: text-bottom;
    }

    .print.parts-run table {
      table-layout: fixed;
    }

    .print.parts-run table.short {
      break-inside: avoid;
    }

    .print.parts-run tbody tr:nth-child(-n + 2) {
      break-before: avoid;
    }

    .print .tick {
      width: 1.5rem;
    }

    .print .get {
      width: 3.75rem;
    }

    .print .part {
      width: 27%;
    }

    .print thead .number {
      width: 6rem;
    }

    .print thead .state {
      width: 5.5rem;
    }

    .print .number {
      white-space: nowrap;
    }

    .print tbody .strong {
      font-size: 1.15em;
      font-weight: 650;
    }

    .print .text {
      margin-block-start: 1rem;
    }

    .print .text p {
      white-space: pre-line;
    }
  }
`;
