import { css } from 'lit';
import { sheetStyles } from '../grid/index.js';
import { baseStyles } from '../look/base.styles.js';
import { printStyles } from '../look/print.styles.js';
import { sectionStyles } from './styles.js';

/** The section of the catalogue. */
export const catalogueStyles = [
  baseStyles,
  sheetStyles,
  sectionStyles,
  css`
    :host {
      container-type: inline-size;
    }

    .desk {
      display: flex;
      flex-direction: column;
      gap: var(--_gap);
    }

    .about {
      display: grid;
      grid-template-columns: repeat(auto-fit, minmax(min(18rem, 100%), 1fr));
      gap: 0.5rem 0.75rem;
    }

    .find {
      width: 16rem;
    }

    [role='tablist'] {
      display: flex;
      flex-wrap: wrap;
      gap: 0.25rem;
      border-block-end: 1px solid var(--_rule-strong);
    }

    [role='tab'] {
      border-color: transparent;
      border-block-end: 0;
      border-end-start-radius: 0;
      border-end-end-radius: 0;
      background: none;
    }

    [role='tab'][aria-selected='true'] {
      background: var(--_paper);
      border-color: var(--_rule-strong);
      box-shadow: inset 0 3px var(--_accent);
      font-weight: 650;
    }

    [role='tabpanel'] {
      display: grid;
      gap: 0.5rem;
      min-width: 0;
      padding-block-start: 0.75rem;
    }

    .sheet-of {
      min-width: 0;
    }

    .printed {
      display: none;
    }

    @media print {
      .printed {
        display: table;
        font-size: 7.5pt;
      }

      .printed :is(th, td) {
        padding: 0.125rem 0.5rem 0.125rem 0;
        border-block-end: 1px solid var(--_rule);
      }

      table.printed {
        break-inside: auto;
      }
    }
  `,
  printStyles,
];
