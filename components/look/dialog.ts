import { css, type CSSResultGroup, html, LitElement, type PropertyValues, type TemplateResult } from 'lit';
import { property } from 'lit/decorators.js';
import { baseStyles } from './base.styles.js';

/** The frame of a dialog on the platform's own element: Escape, focus kept inside and given back come with it. */
export const dialogStyles = [
  baseStyles,
  css`
    dialog {
      width: min(36rem, calc(100vw - 2rem));
      max-height: calc(100vh - 2rem);
      padding: 1.25rem;
      background: var(--_paper);
      border: 1px solid var(--_rule-strong);
      border-block-start: 3px solid var(--_accent);
      color: inherit;
    }

    dialog::backdrop {
      background: rgb(0 0 0 / 0.35);
    }

    h2 {
      margin-block-end: 0.75rem;
      font-size: 1.125em;
    }

    form,
    .body {
      display: grid;
      gap: 0.875rem;
    }

    .field {
      display: grid;
      gap: 0.125rem;
    }

    .fault {
      color: var(--_fault);
    }

    .buttons {
      display: flex;
      flex-wrap: wrap;
      gap: 0.5rem;
      justify-content: end;
    }
  `,
];

/**
 * A dialog of the sheet. A subclass says what stands in it; whoever uses it sets `open` and hears `close`.
 *
 * @fires {Event} close it was closed, in whichever way
 */
export abstract class SheetDialog extends LitElement {
  static override styles: CSSResultGroup = dialogStyles;

  @property({ type: Boolean }) open = false;

  protected abstract readonly heading: string;

  protected override updated(changed: PropertyValues<this>): void {
    if (!changed.has('open')) return;
    const dialog = this.renderRoot.querySelector('dialog')!;
    if (this.open && !dialog.open) dialog.showModal();
    if (!this.open && dialog.open) dialog.close();
  }

  protected close(): void {
    this.renderRoot.querySelector('dialog')!.close();
  }

  private onClose(): void {
    this.open = false;
    this.dispatchEvent(new Event('close'));
  }

  protected abstract renderBody(): TemplateResult;

  protected override render(): TemplateResult {
    return html`<dialog aria-labelledby="heading" @close=${this.onClose}>
      <h2 id="heading">${this.heading}</h2>
      ${this.open ? this.renderBody() : ''}
    </dialog>`;
  }
}
