import { css } from 'lit';
import { baseStyles } from '../look/base.styles.js';
import { printStyles } from '../look/print.styles.js';
import { plotStyles } from './plots/plot.styles.js';

/** The look of the what-if side: its forms, its tables, its pictures. */
export const whatIfStyles = [
  baseStyles,
  plotStyles,
  css`
    :host {
      container-type: inline-size;
    }

    .stack {
      display: grid;
      gap: var(--_gap);
      grid-template-columns: minmax(0, 1fr);
    }

    section {
      display: grid;
      gap: 0.75rem;
      grid-template-columns: minmax(0, 1fr);
    }

    section + section {
      padding-block-start: var(--_gap);
      border-block-start: 1px solid var(--_rule-strong);
    }

    h2 {
      font-size: 1.0625em;
    }

    .tools {
      display: flex;
      flex-wrap: wrap;
      gap: 0.5rem;
      align-items: end;
    }

    .tools > .quiet {
      align-self: center;
    }

    .field {
      display: grid;
      gap: 0.125rem;
    }

    .field.short {
      width: 10rem;
    }

    .fields {
      display: grid;
      grid-template-columns: repeat(auto-fill, minmax(min(11rem, 100%), 1fr));
      gap: 0.75rem;
      align-items: end;
    }

    .fields .wide {
      grid-column: span 2;
    }

    fieldset {
      display: flex;
      flex-wrap: wrap;
      gap: 0.25rem 1rem;
      margin: 0;
      padding: 0;
      border: 0;
    }

    legend {
      padding: 0;
      color: var(--_ink-quiet);
    }

    label.choice {
      display: flex;
      gap: 0.375rem;
      align-items: center;
      color: inherit;
    }

    input[type='radio'] {
      width: 1.25rem;
      min-height: 1.25rem;
      accent-color: var(--_accent);
    }

    .drop {
      display: flex;
      flex-wrap: wrap;
      gap: 0.5rem;
      align-items: center;
      padding: 0.75rem;
      border: 1px dashed var(--_rule-strong);
      border-radius: var(--_radius);
      background: var(--_paper);
    }

    .drop.over {
      background: var(--_accent-wash);
      border-style: solid;
    }

    .running {
      display: flex;
      flex-wrap: wrap;
      gap: 0.5rem 1rem;
      align-items: center;
    }

    progress {
      flex: 1 1 12rem;
      height: 0.75rem;
      accent-color: var(--_accent);
    }

    .stale,
    .notice {
      padding-inline-start: 0.75rem;
      border-inline-start: 3px solid var(--_accent);
    }

    .notice.fault {
      border-inline-start-color: var(--_fault);
    }

    .side-by-side {
      display: grid;
      grid-template-columns: minmax(0, 1fr);
      gap: var(--_gap);
    }

    table.ruled thead td {
      border-block-end-color: var(--_rule-strong);
    }

    figure {
      margin: 0;
    }

    figcaption {
      font-weight: 650;
    }

    .note {
      color: var(--_ink-quiet);
      font-size: 0.9em;
    }

    .figures tr.main > * {
      font-weight: 650;
    }

    .figures tr.main .note {
      font-weight: 400;
    }

    button.small {
      min-height: 1.75rem;
      padding-block: 0;
    }

    .list {
      display: grid;
      gap: 0.375rem;
      max-inline-size: 85ch;
      padding-block-start: 0.375rem;
    }

    .answer {
      font-size: 1.125em;
    }

    td input[type='checkbox'] {
      display: block;
    }

    table.dense :is(th, td).figure {
      padding-inline: 0.375rem;
    }

    table.dense thead th {
      white-space: normal;
    }

    table.dense tbody th {
      min-width: 9rem;
    }

    .narrow {
      display: none;
    }

    @container (max-width: 34rem) {
      .figures {
        font-size: 0.9em;
      }

      .figures .note {
        display: none;
      }

      .narrow {
        display: block;
      }

      .fields .wide {
        grid-column: 1 / -1;
      }

      table.ruled :is(th, td).figure {
        padding-inline: 0.375rem;
      }
    }

    @container (min-width: 62rem) {
      .side-by-side {
        grid-template-columns: minmax(0, 6fr) minmax(0, 5fr);
      }
    }

    @media print {
      details:not([open]) {
        display: none;
      }

      /* A grid is not broken between pages. */
      .stack,
      .side-by-side,
      section {
        display: block;
      }

      .stack > *,
      .side-by-side > *,
      section > * {
        margin-block-end: 0.75rem;
      }

      table.ruled:not(.figures) {
        break-inside: auto;
      }
    }
  `,
  printStyles,
];
