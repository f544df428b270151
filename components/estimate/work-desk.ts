import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import { Pricer } from '../../src/pricing/pricer.js';
import type { Command } from '../../src/store/commands.js';
import { approvedIds, type ApprovedWork } from '../../src/work/approved.js';
import { partsPlan } from '../../src/work/parts-plan.js';
import { sheetOf } from '../../src/work/work-sheet.js';
import { beginWriteUp } from '../../src/work/write-up.js';
import type { SheetView } from './context.js';
import type { PartsRunEdit } from './parts-run-dialog.js';
import { partsRunPaper } from './parts-run-paper.js';
import type { WriteUpEdit } from './write-up-dialog.js';
import { writeUpPaper } from './write-up-paper.js';

/** The papers of the workshop. */
export type Paper = 'parts-run' | 'work-sheet' | 'write-up';

/** Commands to carry out, and what they do, in words. */
export interface WorkEdit {
  readonly commands: readonly Command[];
  readonly what: string;
}

/**
 * The workshop's papers: parts run, work sheet, write-up. One is open at a time, and what is open is what is printed.
 *
 * @property {SheetView | null} view the sheet's state, priced
 *
 * @fires {CustomEvent<WorkEdit>} edit something was written down
 */
export class WorkDesk extends LitElement {
  @property({ attribute: false }) view: SheetView | null = null;

  @state() private opened: Paper | null = null;

  /** Opens one of the papers. */
  show(paper: Paper): void {
    this.opened = paper;
  }

  /** What is printed in place of the estimate; null while nothing is open. */
  paper(): TemplateResult | null {
    const { view } = this;
    if (view === null) return null;
    switch (this.opened) {
      case 'parts-run':
        return partsRunPaper(partsPlan(this.work(view)), view);
      case 'work-sheet':
        return html`<div class="print" part="print">
          <baysheet-work-sheet .sheet=${sheetOf(this.work(view))} .estimate=${view.state.estimate} .locale=${view.locale}></baysheet-work-sheet>
        </div>`;
      case 'write-up':
        return writeUpPaper(view);
      default:
        return null;
    }
  }

  private last: { view: SheetView; priced: PricedEstimate } | null = null;

  /** The approved work, priced by itself; once for each state of the sheet. */
  private work(view: SheetView): ApprovedWork {
    const { estimate } = view.state;
    if (this.last?.view.priced !== view.priced) {
      this.last = { view, priced: new Pricer(view.catalogue, view.rates).price(estimate, approvedIds(estimate)) };
    }
    return { estimate, index: view.catalogue, priced: this.last.priced };
  }

  private edit(commands: readonly Command[], what: string): void {
    this.dispatchEvent(new CustomEvent<WorkEdit>('edit', { detail: { commands, what } }));
  }

  private onClose(paper: Paper): void {
    if (this.opened === paper) this.opened = null;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { view, opened } = this;
    if (view === null) return nothing;
    const { estimate } = view.state;
    const { concern, cause, correction } = estimate;
    return html`<baysheet-parts-run
        .open=${opened === 'parts-run'}
        .plan=${opened === 'parts-run' ? partsPlan(this.work(view)) : null}
        .notes=${estimate.partsRun ?? []}
        .locale=${view.locale}
        .name=${estimate.number || estimate.id}
        @note=${({ detail }: CustomEvent<PartsRunEdit>) => this.edit([{ do: 'set-parts-run', notes: detail.notes }], detail.what)}
        @close=${() => this.onClose('parts-run')}
      ></baysheet-parts-run>
      <baysheet-work-sheet-dialog
        .open=${opened === 'work-sheet'}
        .sheet=${opened === 'work-sheet' ? sheetOf(this.work(view)) : null}
        .estimate=${estimate}
        .locale=${view.locale}
        @close=${() => this.onClose('work-sheet')}
      ></baysheet-work-sheet-dialog>
      <baysheet-write-up
        .open=${opened === 'write-up'}
        .texts=${{ concern, cause, correction }}
        .begun=${opened === 'write-up' ? beginWriteUp(this.work(view)) : null}
        @write=${({ detail }: CustomEvent<WriteUpEdit>) => this.edit([{ do: 'set-job', fields: detail.fields }], detail.what)}
        @close=${() => this.onClose('write-up')}
      ></baysheet-write-up>`;
  }
}
