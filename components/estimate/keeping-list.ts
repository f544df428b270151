import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import { dialogStyles, SheetDialog } from '../look/dialog.js';
import { formatDay, formatMoney } from '../look/format.js';
import type { Kept, KeptStore } from '../storage/port.js';
import { downloadText } from './files.js';
import type { Keeping } from './keeping.js';
import { wordsOf } from './keeping-fault.js';
import { Lasting } from './keeping-lasting.js';
import { answers, readAbout } from './keeping-about.js';
import { duplicate } from './keeping-duplicate.js';
import { readKept } from './keeping-text.js';
import { keepingListStyles } from './keeping-list.styles.js';
import { countWords, type KeptRow, nameOf } from './keeping-list-words.js';
import { momentText } from './keeping-words.js';

/** Painted at once; a search narrows them down. */
const MOST_SHOWN = 200;

/**
 * All estimates that are kept: searched as one types, opened, begun, duplicated, removed (and put back), from a file.
 *
 * @property {KeptStore | null} store where they are kept
 * @property {Keeping | null} keeping what opens them
 * @property {string | null} current the id of the one on the screen
 *
 * @fires {CustomEvent<File>} open-file a file was chosen
 * @fires {Event} backup a backup is to be made or put back
 * @fires {Event} close it was closed
 */
export class KeepingList extends SheetDialog {
  static override styles = [dialogStyles, keepingListStyles];

  @property({ attribute: false }) store: KeptStore | null = null;
  @property({ attribute: false }) keeping: Keeping | null = null;
  @property() current: string | null = null;
  @property() locale = 'en';

  @state() private rows: readonly KeptRow[] | null = null;
  @state() private search = '';
  @state() private asking: string | null = null;
  @state() private removed: readonly Kept[] = [];
  @state() private fault = '';
  @state() private raw: { readonly id: string; readonly text: string } | null = null;
  private unwatch: (() => void) | null = null;
  private readonly lasting = new Lasting(this);

  protected readonly heading = 'Estimates';

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.endWatching();
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('open') && !changed.has('store')) return;
    this.endWatching();
    if (changed.has('store')) this.removed = [];
    if (!this.open || this.store === null) return;
    this.search = '';
    this.asking = null;
    this.fault = '';
    this.raw = null;
    this.unwatch = this.store.watch('estimate', () => void this.load());
    void this.load();
    void this.lasting.look();
  }

  protected override updated(changed: PropertyValues<this>): void {
    super.updated(changed);
    if (changed.has('open') && this.open) this.renderRoot.querySelector<HTMLInputElement>('input[type=search]')?.focus();
  }

  private endWatching(): void {
    this.unwatch?.();
    this.unwatch = null;
  }

  private async load(): Promise<void> {
    try {
      const entries = await this.store!.list('estimate');
      this.rows = entries.map((entry) => ({ entry, about: readAbout(entry) }));
    } catch (fault) {
      this.rows ??= [];
      this.fault = `What is kept cannot be listed. ${wordsOf(fault)}`;
    }
  }

  private async openOne(id: string): Promise<void> {
    this.fault = '';
    this.raw = null;
    if (id === this.current || (await this.keeping!.open(id))) {
      this.close();
      return;
    }
    const { unreadable } = this.keeping!;
    this.fault =
      unreadable === null
        ? 'This estimate is not there any more.'
        : `${nameOf(this.rowOf(id))} cannot be opened. ${unreadable.why} Nothing was changed in it.`;
    if (unreadable?.raw) this.raw = { id, text: unreadable.raw };
    await this.load();
  }

  private async duplicateOne(id: string): Promise<void> {
    await this.orSay('It was not duplicated.', async () => {
      const kept = await this.store!.get('estimate', id);
      const read = kept === null ? null : readKept(kept.text);
      if (read === null || !read.ok) throw new Error('It cannot be read.');
      this.keeping!.begin(duplicate(read.value.estimate));
      this.close();
    });
  }

  private async removeOne({ entry }: KeptRow): Promise<void> {
    this.asking = null;
    await this.orSay('It was not removed.', async () => {
      // What cannot be read can be removed; only not be put back.
      const kept = await this.store!.get('estimate', entry.id).catch(() => null);
      const put = await this.store!.put('estimate', entry.id, null, kept?.revision ?? entry.revision);
      if (!put.ok) throw new Error('It was changed elsewhere just now. Look at it, then remove it again.');
      if (kept !== null) this.removed = [...this.removed, kept];
      if (entry.id === this.current) this.keeping!.begin();
    });
    await this.load();
    this.renderRoot.querySelector<HTMLInputElement>('input[type=search]')?.focus();
  }

  private async putBack(kept: Kept): Promise<void> {
    await this.orSay('It was not put back.', async () => {
      const put = await this.store!.put('estimate', kept.id, kept.text, null, kept.about);
      if (!put.ok) throw new Error('Another estimate is kept under its id meanwhile.');
      this.removed = this.removed.filter((each) => each !== kept);
    });
    await this.load();
  }

  private async orSay(what: string, work: () => Promise<void>): Promise<void> {
    this.fault = '';
    try {
      await work();
    } catch (fault) {
      this.fault = `${what} ${wordsOf(fault)}`;
    }
  }

  private onFile(event: Event): void {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    if (file === undefined) return;
    this.dispatchEvent(new CustomEvent('open-file', { detail: file }));
    input.value = '';
    this.close();
  }

  private begin(): void {
    this.keeping!.begin();
    this.close();
  }

  /** Arrows lead from the search through the list. */
  private readonly onKey = (event: KeyboardEvent): void => {
    const opens = [...this.renderRoot.querySelectorAll<HTMLElement>('button.open')];
    const at = opens.indexOf((this.renderRoot as ShadowRoot).activeElement as HTMLElement);
    const field = this.renderRoot.querySelector<HTMLElement>('input[type=search]')!;
    if (event.key === 'ArrowDown') opens[at + 1]?.focus();
    else if (event.key === 'ArrowUp') (at <= 0 ? field : opens[at - 1]!).focus();
    else if (event.key === 'Enter' && event.target === field) opens[0]?.click();
    else if (event.key === 'Delete' && at >= 0) this.asking = this.shown()[at]!.entry.id;
    else return;
    event.preventDefault();
  };

  private rowOf(id: string): KeptRow | undefined {
    return this.rows?.find(({ entry }) => entry.id === id);
  }

  private found(): readonly KeptRow[] {
    return (this.rows ?? []).filter(({ about }) => answers(about, this.search));
  }

  private shown(): readonly KeptRow[] {
    return this.found().slice(0, MOST_SHOWN);
  }

  protected override renderBody(): TemplateResult {
    const found = this.found();
    const all = this.rows?.length ?? 0;
    return html`<div class="body" @keydown=${this.onKey}>
      <div class="head">
        <div class="field">
          <label for="search">Search by number, name, plate or vehicle</label>
          <input id="search" type="search" autocomplete="off" .value=${this.search} @input=${(event: Event) => (this.search = (event.target as HTMLInputElement).value)} />
        </div>
        <button class="main" @click=${this.begin}>New estimate</button>
        <label class="button">Open a file … <input class="unseen" type="file" accept=".json,application/json" @change=${this.onFile} /></label>
      </div>
      ${
        this.fault === ''
          ? nothing
          : html`<div class="said" role="alert">
            <span class="fault">${this.fault}</span>
            ${this.raw === null ? nothing : html`<button @click=${() => downloadText(this.raw!.text, 'application/json', `${this.raw!.id}.kept.json`, this.ownerDocument)}>Save what is kept as a file</button>`}
          </div>`
      }
      ${this.removed.map(
        (kept) =>
          html`<div class="said" role="status"><span>Removed: ${nameOf({ entry: kept, about: readAbout(kept) })}</span> <button @click=${() => this.putBack(kept)}>Put it back</button></div>`,
      )}
      <p class="quiet" role="status">${this.rows === null ? 'Looking …' : countWords(found.length, all, this.search)}</p>
      ${found.length === 0 ? nothing : this.renderTable()}
      ${this.keeping?.isInBrowser ? this.lasting.render() : nothing}
      <div class="buttons">
        <span class="quiet">${found.length > MOST_SHOWN ? `The ${MOST_SHOWN} saved last are shown. Search to see others.` : nothing}</span>
        <button @click=${() => this.dispatchEvent(new Event('backup'))}>Backup …</button>
        <button @click=${this.close}>Close</button>
      </div>
    </div>`;
  }

  private renderTable(): TemplateResult {
    return html`<div class="scroll">
      <table class="ruled">
        <thead>
          <tr>
            <th scope="col">Number</th>
            <th scope="col">Customer</th>
            <th scope="col">Plate</th>
            <th scope="col" class="aside">Vehicle</th>
            <th scope="col" class="aside">Date</th>
            <th scope="col" class="figure">Total</th>
            <th scope="col" class="aside">Standing</th>
            <th scope="col" class="aside">Saved</th>
            <th scope="col"><span class="unseen">What to do</span></th>
          </tr>
        </thead>
        <tbody>
          ${this.shown().map((row) => this.renderRow(row))}
        </tbody>
      </table>
    </div>`;
  }

  private renderRow(row: KeptRow): TemplateResult {
    const { entry, about } = row;
    const isCurrent = entry.id === this.current;
    const title = about.number || 'Without a number';
    return html`<tr class=${isCurrent ? 'current' : ''}>
      <th scope="row"><button class="open" aria-label="Open ${nameOf(row)}" @click=${() => this.openOne(entry.id)}>${title}</button>${isCurrent ? html`<br /><span class="quiet whole">on the screen</span>` : nothing}</th>
      <td>${about.name}</td>
      <td class="whole">${about.plate}</td>
      <td class="aside">${about.vehicle}</td>
      <td class="aside whole">${formatDay(about.createdAt, this.locale)}</td>
      <td class="figure">${about.total === '' ? '' : formatMoney(about.total, about.currency, this.locale)}</td>
      <td class="aside">${about.standing}</td>
      <td class="aside whole">${momentText(new Date(entry.savedAt), this.locale)}</td>
      <td class="row-buttons">
        ${
          this.asking === entry.id
            ? html`<span>Remove it?</span>
              <button class="main" @click=${() => this.removeOne(row)}>Remove</button>
              <button @click=${() => (this.asking = null)}>Leave it</button>`
            : html`<button aria-label="Duplicate ${nameOf(row)}" @click=${() => this.duplicateOne(entry.id)}>Duplicate</button>
              <button aria-label="Remove ${nameOf(row)} …" @click=${() => (this.asking = entry.id)}>Remove …</button>`
        }
      </td>
    </tr>`;
  }
}
