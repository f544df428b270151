import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import { repeat } from 'lit/directives/repeat.js';
import type { Estimate, Evidence, Finding } from '../../src/documents/estimate.js';
import { readReading } from '../../src/findings/reading.js';
import { cameToLight, findingName } from '../../src/findings/round-words.js';
import type { CatalogueIndex } from '../../src/overlap/catalogue-index.js';
import { baseStyles } from '../look/base.styles.js';
import { explainAll } from './codes-edits.js';
import { addEvidence, addPhotos, chooseForCustomer, describeEvidence, photoText, removeEvidence, removePhoto } from './evidence-edits.js';
import { holdsFiles } from './evidence-drop.js';
import type { PhotoKeeper } from './evidence-keeper.js';
import { evidenceStyles } from './evidence-pane.styles.js';
import { PhotoFault, takePhoto } from './evidence-picture.js';
import { paneStyles } from './pane.styles.js';
import { type PaneEdit, sendEdit } from './pane-edit.js';

/**
 * The evidence of one finding: how it was seen, what was read, photos, and which trouble codes it explains. Photos come by
 * drop, paste, choice of a file or the camera.
 *
 * Registered by its user; the sheet names it `baysheet-evidence`.
 *
 * @attribute open all of it is shown, not only the summary
 * @property {Estimate | null} estimate
 * @property {string | null} finding id of the finding that is looked at; null asks to choose one
 * @property {CatalogueIndex | null} catalogue names of components
 * @property {PhotoKeeper | null} photos where photos are
 * @property {string} locale how figures in readings are written
 *
 * @fires {CustomEvent<PaneEdit>} edit what a person did, as one step
 *
 * @csspart evidence one evidence
 * @csspart photo its photo
 */
export class EvidencePane extends LitElement {
  static override styles = [baseStyles, paneStyles, evidenceStyles];

  @property({ attribute: false }) estimate: Estimate | null = null;
  @property() finding: string | null = null;
  @property({ attribute: false }) catalogue: CatalogueIndex | null = null;
  @property({ attribute: false }) photos: PhotoKeeper | null = null;
  @property() locale = 'en';
  @property({ type: Boolean, reflect: true }) open = false;

  /** Why files could not be used. */
  @state() private faults: readonly string[] = [];
  @state() private busy = '';
  @state() private over = false;
  /** Which photo is shown large. */
  @state() private large: number | null = null;
  /** Codes that were typed and cannot be used, and why. */
  @state() private codes: { readonly text: string; readonly reason: string } | null = null;

  /** Opens and takes up the keyboard at the first field. */
  override focus(): void {
    this.open = true;
    void this.updateComplete.then(() => this.renderRoot.querySelector<HTMLElement>('input:not([type=file]), button')?.focus());
  }

  /** Adds the pictures among some files to the finding that is shown; what cannot be used is said. */
  async add(files: readonly File[], index: number | null = null): Promise<void> {
    const finding = this.shown();
    if (finding === null || this.photos === null || files.length === 0) return;
    this.open = true;
    this.faults = [];
    this.busy = files.length === 1 ? 'Preparing the photo …' : `Preparing ${files.length} photos …`;
    const kept: string[] = [];
    const faults: string[] = [];
    for (const file of files) {
      try {
        kept.push(await this.photos.keep(await takePhoto(file)));
      } catch (fault) {
        faults.push(fault instanceof Error ? fault.message : String(fault));
        // Another file may be sound, but where one finds no room none does.
        if (!(fault instanceof PhotoFault)) break;
      }
    }
    this.busy = '';
    this.faults = faults;
    // The finding may have been edited, or taken out, while its photos were written.
    const now = this.estimate?.findings.find(({ id }) => id === finding.id);
    if (now === undefined) this.faults = [...faults, 'The finding is gone, so its photos were not added.'];
    else if (kept.length > 0) this.edit(addPhotos(now, kept, index));
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('finding')) return;
    this.faults = [];
    this.large = null;
    this.codes = null;
  }

  private shown(): Finding | null {
    return this.estimate?.findings.find(({ id }) => id === this.finding) ?? null;
  }

  private edit(edit: PaneEdit): void {
    sendEdit(this, edit);
  }

  private onDrag(event: DragEvent): void {
    if (!holdsFiles(event)) return;
    event.preventDefault();
    this.over = event.type !== 'dragleave';
  }

  private onDrop(event: DragEvent): void {
    const files = [...(event.dataTransfer?.files ?? [])];
    if (files.length === 0) return;
    event.preventDefault();
    event.stopPropagation();
    this.over = false;
    void this.add(files);
  }

  private onFiles(event: Event, index: number | null): void {
    const input = event.target as HTMLInputElement;
    const files = [...(input.files ?? [])];
    input.value = '';
    void this.add(files, index);
  }

  private onCodes(finding: Finding, text: string): void {
    const outcome = explainAll(this.estimate!, finding, text);
    this.codes = 'reason' in outcome ? { text, reason: outcome.reason } : null;
    if ('edit' in outcome) this.edit(outcome.edit);
  }

  protected override render(): TemplateResult | typeof nothing {
    const finding = this.shown();
    const { estimate, catalogue } = this;
    if (estimate === null || catalogue === null) return nothing;
    const name = finding === null ? '' : findingName(finding, catalogue.catalogue);
    return html`<details
      class=${this.over ? 'over' : ''}
      ?open=${live(this.open)}
      @toggle=${(event: Event) => (this.open = (event.target as HTMLDetailsElement).open)}
      @dragenter=${this.onDrag}
      @dragover=${this.onDrag}
      @dragleave=${this.onDrag}
      @drop=${this.onDrop}
    >
      <summary>
        <h3>Evidence</h3>
        ${finding === null ? html`<span class="quiet">of the finding that is chosen in the grid</span>` : html`<span>${name}</span><span class="quiet">${countText(finding)}</span>`}
      </summary>
      ${finding === null ? html`<div class="pane"><p class="quiet">Choose a finding in the grid to see its evidence, or to add a photo.</p></div>` : this.renderPane(finding, name, estimate, catalogue)}
    </details>`;
  }

  private renderPane(finding: Finding, name: string, estimate: Estimate, catalogue: CatalogueIndex): TemplateResult {
    const light = cameToLight(finding, estimate, catalogue.catalogue);
    return html`<div class="pane">
      ${light === null ? nothing : html`<p>${light}</p>`}
      <div class="buttons">
        ${this.fileButton('Add photos …', null)} ${this.fileButton('Take a photo …', null, true)}
        <button @click=${() => this.edit(addEvidence(finding))}>Add evidence</button>
        <span class="quiet">Photos can also be dropped here or on the finding’s row, or pasted. Place and time are taken out of them.</span>
      </div>
      <div role="status" ?hidden=${this.busy === ''}>${this.busy}</div>
      ${this.faults.length === 0 ? nothing : html`<div role="alert" class="list">${this.faults.map((fault) => html`<p class="fault">${fault}</p>`)}</div>`}
      ${
        finding.seen.length === 0
          ? html`<p class="quiet">No evidence yet.</p>`
          : html`<ol class="entries">${repeat(
              finding.seen,
              (_, i) => `${finding.id} ${i}`,
              (evidence, i) => this.renderEvidence(evidence, i, finding, name),
            )}</ol>`
      }
      ${this.renderCodes(finding)}
    </div>`;
  }

  private renderEvidence(evidence: Evidence, i: number, finding: Finding, name: string): TemplateResult {
    const field = (key: 'how' | 'reading' | 'note' | 'alt', label: string, hint: string | null = null): TemplateResult =>
      html`<div class="field">
        <label for="${key}-${i}">${label}</label>
        <input
          id="${key}-${i}"
          autocomplete="off"
          aria-describedby="${key}-${i}-hint"
          .value=${live(evidence[key] ?? '')}
          @change=${(event: Event) => this.edit(describeEvidence(finding, i, key, (event.target as HTMLInputElement).value))}
        />
        <span id="${key}-${i}-hint" class="hint quiet">${hint}</span>
      </div>`;
    const hasPhoto = evidence.photo !== '';
    return html`<li class="entry ${hasPhoto ? '' : 'bare'} ${this.large === i ? 'large' : ''}" part="evidence">
      ${hasPhoto ? html`<div part="photo">${this.renderPhoto(evidence, i, name)}</div>` : nothing}
      <div class="list">
        <div class="fields">
          ${field('how', 'Seen by')} ${field('reading', 'Reading, with its unit', readReading(evidence.reading, this.locale).hint)}
          ${field('note', 'Note, for the shop alone')} ${hasPhoto ? field('alt', 'What the photo shows') : nothing}
        </div>
        <div class="buttons">
          ${
            hasPhoto
              ? html`<label class="check">
                  <input
                    type="checkbox"
                    .checked=${live(evidence.forCustomer !== false)}
                    @change=${(event: Event) => this.edit(chooseForCustomer(finding, i, (event.target as HTMLInputElement).checked))}
                  />
                  The customer may see this photo
                </label>
                <button @click=${() => this.edit(removePhoto(finding, i))}>Remove the photo</button>`
              : this.fileButton('Add a photo to this …', i)
          }
          <button @click=${() => this.edit(removeEvidence(finding, i))}>Remove this evidence</button>
        </div>
      </div>
    </li>`;
  }

  private renderPhoto(evidence: Evidence, i: number, name: string): TemplateResult {
    const picture = this.photos?.picture(evidence.photo) ?? 'missing';
    if (picture === 'loading') return html`<p class="quiet">Fetching the photo …</p>`;
    if (picture === 'missing')
      return html`<p class="lost">This photo is not kept in this browser. The estimate’s file from the browser that made it holds it.</p>`;
    const large = this.large === i;
    return html`<button class="thumb" aria-expanded=${large} title=${large ? 'Show it small' : 'Show it large'} @click=${() => (this.large = large ? null : i)}>
      <img src=${picture.src} alt=${photoText(evidence, name)} />
    </button>`;
  }

  private renderCodes(finding: Finding): TemplateResult {
    return html`<div class="field">
      <label for="codes">Trouble codes that it explains</label>
      <input
        id="codes"
        autocomplete="off"
        autocapitalize="characters"
        spellcheck="false"
        placeholder="P0171, U0100-87"
        aria-describedby="codes-reason"
        aria-invalid=${this.codes !== null}
        .value=${live(this.codes?.text ?? (finding.codes ?? []).join(', '))}
        @change=${(event: Event) => this.onCodes(finding, (event.target as HTMLInputElement).value)}
      />
      <span id="codes-reason" class="fault hint">${this.codes?.reason}</span>
    </div>`;
  }

  private fileButton(title: string, index: number | null, camera = false): TemplateResult {
    return html`<label class="button ${camera ? 'camera' : ''}"
      >${title}
      <input
        class="unseen"
        type="file"
        accept="image/*"
        ?multiple=${!camera && index === null}
        capture=${camera ? 'environment' : nothing}
        @change=${(event: Event) => this.onFiles(event, index)}
      />
    </label>`;
  }
}

function countText({ seen }: Finding): string {
  const photos = seen.filter(({ photo }) => photo !== '').length;
  const entries = seen.length === 0 ? 'none yet' : seen.length === 1 ? '1 entry' : `${seen.length} entries`;
  return photos === 0 ? entries : `${entries}, ${photos === 1 ? '1 photo' : `${photos} photos`}`;
}
