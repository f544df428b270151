import { css } from 'lit';
import { sheetStyles } from '../grid/index.js';
import { baseStyles } from '../look/base.styles.js';
import { deskStyles } from '../look/desk.styles.js';
import { printStyles } from '../look/print.styles.js';
import { paperStyles } from './paper.styles.js';
import { workPaperStyles } from './work-paper.styles.js';

/** The frame of the sheet: head, tools, the two grids and the picture on the left, the totals on the right. */
export const estimateStyles = [
  baseStyles,
  sheetStyles,
  deskStyles,
  css`
    :host {
      container-type: inline-size;
      background: var(--_ground);
    }

    .sheet,
    .screen {
      display: flex;
      flex-direction: column;
      gap: var(--_gap);
    }

    .sheet {
      padding: var(--_gap);
    }

    .layout {
      display: grid;
      grid-template-columns: minmax(0, 1fr) 18rem;
      gap: var(--_gap);
      align-items: start;
    }

    .main {
      display: flex;
      flex-direction: column;
      gap: calc(1.25 * var(--_gap));
      min-width: 0;
    }

    .side {
      position: sticky;
      inset-block-start: var(--baysheet-sticky-top, 0.5rem);
      max-block-size: calc(100vh - 1rem);
      overflow: auto;
      padding: 0.875rem 1rem;
      background: var(--_paper);
      border: 1px solid var(--_rule);
      border-block-start: 3px solid var(--_accent);
    }

    .authorisation {
      display: grid;
      gap: 0.5rem;
      margin-block-start: 1rem;
      padding-block-start: 0.75rem;
      border-block-start: 1px solid var(--_rule-strong);
    }

    .bar {
      display: none;
    }

    .saving {
      text-align: end;
    }

    .list.cautions {
      grid-template-columns: repeat(auto-fit, minmax(min(26rem, 100%), 1fr));
      gap: 0.5rem 1.5rem;
      max-inline-size: none;
    }

    .caution {
      padding-inline-start: 0.75rem;
      border-inline-start: 3px double var(--_rule-strong);
    }

    .print {
      display: none;
    }

    @container (max-width: 60rem) {
      .layout {
        grid-template-columns: minmax(0, 1fr);
      }

      .side {
        position: static;
        max-block-size: none;
      }

      .bar {
        position: sticky;
        inset-block-end: 0;
        z-index: 10;
        display: flex;
        justify-content: space-between;
        gap: 1rem;
        padding: 0.5rem 1rem;
        background: var(--_paper);
        border-block-start: 2px solid var(--_accent);
        font-weight: 650;
      }
    }

    @container (max-width: 30rem) {
      .sheet {
        padding: 0.5rem;
      }
    }

  `,
  printStyles,
  paperStyles,
  workPaperStyles,
];
