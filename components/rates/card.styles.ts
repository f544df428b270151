import { css } from 'lit';
import { sheetStyles } from '../grid/index.js';
import { baseStyles } from '../look/base.styles.js';
import { printStyles } from '../look/print.styles.js';
import { plotStyles } from './plots/plot.styles.js';
import { sectionStyles } from './styles.js';

/** The section of the rate card. */
export const cardStyles = [
  baseStyles,
  sheetStyles,
  sectionStyles,
  plotStyles,
  css`
    :host {
      container-type: inline-size;
    }

    .layout {
      display: grid;
      grid-template-columns: minmax(0, 1fr) 21rem;
      gap: var(--_gap);
      align-items: start;
    }

    .main {
      display: grid;
      grid-template-columns: repeat(2, minmax(0, 1fr));
      gap: calc(1.5 * var(--_gap)) var(--_gap);
      align-items: start;
      min-width: 0;
    }

    .wide {
      grid-column: 1 / -1;
    }

    .pair {
      display: grid;
      grid-template-columns: minmax(0, 26rem) minmax(0, 1fr);
      gap: var(--_gap);
      align-items: start;
    }

    .stack {
      display: grid;
      grid-template-columns: minmax(0, 1fr);
      gap: 0.75rem;
    }

    .stack table.ruled {
      width: 100%;
      min-width: 0;
    }

    .stack table.ruled :is(th, td).figure {
      padding-inline: 0 0.5rem;
      white-space: normal;
    }

    .mark-up {
      display: grid;
      grid-template-columns: minmax(0, 1fr);
      gap: 0.75rem;
      min-width: 0;
    }

    .mark-up figure {
      margin: 0;
    }

    .drops {
      display: grid;
      grid-template-columns: repeat(auto-fit, minmax(13rem, 1fr));
      gap: 0.75rem;
    }

    .drops .plot {
      --plot-height: 8rem;
    }

    .mark-up .plot .curve.way-0 {
      stroke: var(--_ink-quiet);
      stroke-width: 1.5;
      stroke-dasharray: 7 4;
    }

    .mark-up .plot .curve.way-1 {
      stroke: var(--_ink-quiet);
      stroke-width: 1.5;
      stroke-dasharray: 2 4;
    }

    .mark-up .plot .drop {
      stroke: var(--_fault);
      stroke-width: 2;
    }

    .mark-up .plot .drop-end {
      fill: var(--_fault);
    }

    .way {
      display: grid;
      gap: 0.375rem;
      justify-items: start;
      max-inline-size: 70ch;
      padding-inline-start: 0.75rem;
      border-inline-start: 3px solid var(--_accent);
    }

    .side {
      position: sticky;
      inset-block-start: var(--baysheet-sticky-top, 0.5rem);
      display: grid;
      gap: 1rem;
      max-block-size: calc(100vh - 1rem);
      overflow: auto;
      padding: 0.875rem 1rem;
      background: var(--_paper);
      border: 1px solid var(--_rule);
      border-block-start: 3px solid var(--_accent);
    }

    .side h2 {
      margin-block-end: 0.375rem;
    }

    .examples :is(th, td) {
      border-block-end: 1px solid var(--_rule);
    }

    .examples thead th {
      color: var(--_ink-quiet);
      vertical-align: bottom;
    }

    .examples .figure {
      padding-inline-start: 0.75rem;
      text-align: end;
    }

    .examples :is(del, ins) {
      display: block;
    }

    .paper {
      display: none;
    }

    @container (max-width: 68rem) {
      .main {
        grid-template-columns: minmax(0, 1fr);
      }
    }

    @container (max-width: 56rem) {
      .layout,
      .pair {
        grid-template-columns: minmax(0, 1fr);
      }

      .side {
        position: static;
        max-block-size: none;
      }
    }

    @media print {
      .layout,
      .main,
      .pair {
        display: block;
      }

      .main > section {
        margin-block-end: 1rem;
      }

      .side {
        position: static;
        overflow: visible;
        max-block-size: none;
      }

      .band,
      .sheet-of {
        display: none;
      }

      .way {
        break-inside: avoid;
      }

      .paper {
        display: table;
        margin-block-end: 0.75rem;
      }

      .paper td {
        overflow-wrap: anywhere;
      }
    }
  `,
  printStyles,
];
