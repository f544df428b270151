import { css, html, nothing, type TemplateResult } from 'lit';
import { property } from 'lit/decorators.js';
import { emptyTexts, type JobWords, paragraph, withParagraph, type WriteUp, type WrittenUp } from '../../src/work/write-up.js';
import { dialogStyles, SheetDialog } from '../look/dialog.js';
import { printPage } from '../look/on-paper.js';

/** New texts of the write-up, and what was done, in words. */
export interface WriteUpEdit {
  readonly fields: Partial<WrittenUp>;
  readonly what: string;
}

const TEXTS: readonly { key: keyof WrittenUp; title: string; about: string }[] = [
  { key: 'concern', title: 'Concern', about: 'What the customer said, in their words.' },
  { key: 'cause', title: 'Cause', about: 'What is wrong, and how it was found; a paragraph for each job.' },
  {
    key: 'correction',
    title: 'Correction',
    about: 'What was done; a paragraph for each job. Check it after the work: it is begun from what was approved.',
  },
];

/**
 * Concern, cause and correction. They can be begun from what is recorded: texts that are empty at once, others job by
 * job. What a person has typed stays.
 *
 * @property {WrittenUp | null} texts as they stand
 * @property {WriteUp | null} begun as they can be begun
 *
 * @fires {CustomEvent<WriteUpEdit>} write a text is to be another
 * @fires {Event} close it was closed
 */
export class WriteUpDialog extends SheetDialog {
  static override styles = [
    dialogStyles,
    css`
      dialog {
        width: min(60rem, calc(100vw - 2rem));
      }

      textarea {
        min-height: 6rem;
        field-sizing: content;
        max-height: 22rem;
      }

      .head {
        display: flex;
        flex-wrap: wrap;
        gap: 0 0.75rem;
        align-items: baseline;
      }

      .head label {
        color: inherit;
        font-weight: 650;
      }

      details li {
        display: grid;
        grid-template-columns: 1fr auto;
        gap: 0.25rem 0.75rem;
        align-items: start;
        padding-block: 0.5rem;
        border-block-start: 1px solid var(--_rule);
      }

      li > :is(h3, p) {
        grid-column: 1;
      }

      li > button {
        grid-column: 2;
      }
    `,
  ];

  @property({ attribute: false }) texts: WrittenUp | null = null;
  @property({ attribute: false }) begun: WriteUp | null = null;

  protected readonly heading = 'Write-up';

  private write(fields: Partial<WrittenUp>, what: string): void {
    this.dispatchEvent(new CustomEvent<WriteUpEdit>('write', { detail: { fields, what } }));
  }

  private onText(key: keyof WrittenUp, event: Event): void {
    this.write({ [key]: (event.target as HTMLTextAreaElement).value }, `change of ${key}`);
  }

  private add(key: 'cause' | 'correction', job: JobWords): void {
    const text = withParagraph(this.texts![key], paragraph(job.title, job[key]));
    this.write({ [key]: text }, `${key} of ${job.title}`);
  }

  protected override renderBody(): TemplateResult {
    const [texts, begun] = [this.texts!, this.begun!];
    const empty = emptyTexts(texts, begun);
    const names = Object.keys(empty);
    return html`<div class="body">
      ${
        names.length === 0
          ? nothing
          : html`<div class="head">
            <button class="main" @click=${() => this.write(empty, 'beginning of the write-up')}>Begin the empty texts from the findings</button>
            <span class="quiet">Empty: ${names.join(', ')}. What is written stays as it is.</span>
          </div>`
      }
      ${TEXTS.map(
        ({ key, title, about }) => html`<div class="field">
          <div class="head"><label for=${key}>${title}</label> <span class="quiet" id="about-${key}">${about}</span></div>
          <textarea id=${key} autocomplete="off" aria-describedby="about-${key}" .value=${texts[key]} @change=${(event: Event) => this.onText(key, event)}></textarea>
        </div>`,
      )}
      ${this.renderJobs(
        begun.jobs.filter((job) => job.cause !== '' || job.correction !== ''),
        texts,
      )}
      <div class="buttons">
        <button @click=${printPage}>Print</button>
        <button class="main" @click=${this.close}>Done</button>
      </div>
    </div>`;
  }

  private renderJobs(jobs: readonly JobWords[], texts: WrittenUp): TemplateResult | typeof nothing {
    if (jobs.length === 0) return nothing;
    return html`<details>
      <summary>Sentences for each job</summary>
      <ul>
        ${jobs.map(
          (job) => html`<li>
            <h3>${job.title}</h3>
            ${this.renderSentences('cause', job, texts)} ${this.renderSentences('correction', job, texts)}
          </li>`,
        )}
      </ul>
    </details>`;
  }

  private renderSentences(key: 'cause' | 'correction', job: JobWords, texts: WrittenUp): TemplateResult | typeof nothing {
    if (job[key] === '') return nothing;
    const isThere = texts[key].includes(paragraph(job.title, job[key]));
    return html`<p><span class="quiet">${key === 'cause' ? 'Cause:' : 'Correction:'}</span> ${job[key]}</p>
      <button ?disabled=${isThere} aria-label="Add to the ${key}: ${job.title}" @click=${() => this.add(key, job)}>${isThere ? 'Added' : `Add to the ${key}`}</button>`;
  }
}
