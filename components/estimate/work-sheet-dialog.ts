import { css, html, type TemplateResult } from 'lit';
import { property } from 'lit/decorators.js';
import type { Estimate } from '../../src/documents/estimate.js';
import type { WorkSheet } from '../../src/work/work-sheet.js';
import { dialogStyles, SheetDialog } from '../look/dialog.js';
import { printPage } from '../look/on-paper.js';

/**
 * The technician's work sheet on the screen, as it will be printed.
 *
 * @property {WorkSheet | null} sheet what is to be done
 * @property {Estimate | null} estimate whose it is
 * @property {string} locale how figures and the day are written
 *
 * @fires {Event} close it was closed
 */
export class WorkSheetDialog extends SheetDialog {
  static override styles = [
    dialogStyles,
    css`
      dialog {
        width: min(56rem, calc(100vw - 2rem));
      }

      .buttons {
        position: sticky;
        inset-block-end: -1.25rem;
        padding-block: 0.75rem;
        background: var(--_paper);
        border-block-start: 1px solid var(--_rule);
      }
    `,
  ];

  @property({ attribute: false }) sheet: WorkSheet | null = null;
  @property({ attribute: false }) estimate: Estimate | null = null;
  @property() locale = 'en';

  protected readonly heading = 'For the technician';

  protected override renderBody(): TemplateResult {
    return html`<div class="body">
      <baysheet-work-sheet .sheet=${this.sheet} .estimate=${this.estimate} .locale=${this.locale}></baysheet-work-sheet>
      <div class="buttons">
        <button @click=${printPage}>Print</button>
        <button class="main" @click=${this.close}>Done</button>
      </div>
    </div>`;
  }
}
