import { adoptStyles, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import { type Catalogue, parseCatalogue } from '../../src/documents/catalogue.js';
import type { Problem } from '../../src/documents/problem.js';
import type { Rates } from '../../src/documents/rates.js';
import { catalogueToJson } from '../../src/exchange/catalogue-json.js';
import type { ImportPlan } from '../../src/exchange/import-operations.js';
import {
  CATALOGUE_LISTS,
  type CatalogueCommand,
  type CatalogueFields,
  type CatalogueList,
  type CatalogueRow,
  type CatalogueState,
  CatalogueStore,
  draftCatalogue,
} from '../../src/store/catalogue-draft.js';
import { define } from '../define.js';
import { GridController } from '../estimate/grid-controller.js';
import { rowTools } from '../estimate/tools.js';
import { Announcer } from '../look/announcer.js';
import { OnPaper } from '../look/on-paper.js';
import { catalogueAbout, readAboutField } from './catalogue-about.js';
import { type CatalogueAction, catalogueActions, selectedRows, usesOfRows } from './catalogue-actions.js';
import { CatalogueChecker, type Checked } from './catalogue-checker.js';
import { downloadCatalogue, downloadOperations, takeOperations } from './catalogue-files.js';
import { catalogueGrid, type CatalogueOwner, spareCell } from './catalogue-grids.js';
import { CatalogueImport } from './catalogue-import.js';
import { LIST_TITLES } from './catalogue-lists.js';
import { CatalogueModel } from './catalogue-model.js';
import type { NeedsSubject } from './catalogue-needs.js';
import { CatalogueNeeds } from './catalogue-needs-picture.js';
import { printedList } from './catalogue-print.js';
import { problemsOf, refusedFile } from './catalogue-problems.js';
import { catalogueStyles } from './catalogue-styles.js';
import { CatalogueUses, type UsesQuestion } from './catalogue-uses.js';
import type { CatalogueView } from './catalogue-view.js';
import { tabList } from './tabs.js';

/** A person has changed the catalogue. It is not checked yet: `catalogue-checked` follows. */
export interface CatalogueEdit {
  readonly catalogue: Catalogue;
  /** What was done, in words: "paste". */
  readonly what: string;
}

/** The catalogue as it stands has been checked. */
export interface CatalogueChecked {
  readonly catalogue: Catalogue;
  /** No errors: estimates can be priced with it. */
  readonly usable: boolean;
  readonly problems: readonly Problem[];
  /** How many entries stand in their cells only, because they cannot be used. */
  readonly unused: number;
}

/**
 * The catalogue in grids: operations, steps, parts, remedies, components, cautions, overlaps and test methods; the needs
 * as a picture; checks while one types; tables in and out.
 *
 * Registered by its user; the owner's desk names it `baysheet-catalogue-desk`. It holds one history of undo, which a
 * `catalogue` that says the same as what is on the screen does not touch.
 *
 * @property {Catalogue | null} catalogue what is worked on; one that differs begins a new history
 * @property {Rates | null} rates the card whose labour classes and fees operations name
 * @property {string} locale how figures are written; the card's where it is not set
 *
 * @fires {CustomEvent<CatalogueEdit>} catalogue-edit a person has changed it
 * @fires {CustomEvent<CatalogueChecked>} catalogue-checked the last change has been checked
 * @fires {CustomEvent<readonly Problem[]>} refuse a file could not be read
 *
 * @csspart tools the row of buttons
 * @csspart lists the tabs with their grids
 * @csspart needs the picture of the needs
 * @csspart problems what is worth a look
 */
export class CatalogueDesk extends LitElement {
  static override styles = catalogueStyles;

  @property({ attribute: false }) rates: Rates | null = null;
  @property() locale = '';

  @state() private list: CatalogueList = 'operations';
  @state() private typed = '';
  @state() private checked: Checked | null = null;
  @state() private question: UsesQuestion | null = null;
  @state() private importing = false;
  @state() private idFault = '';
  @state() private refused: { readonly name: string; readonly problems: readonly Problem[] } | null = null;

  private store: CatalogueStore | null = null;
  private readonly model = new CatalogueModel();
  private lastSubject: NeedsSubject | null = null;
  private readonly checker = new CatalogueChecker((checked) => this.onChecked(checked));
  private readonly owner: CatalogueOwner = {
    view: () => this.view(),
    shown: () => this.list,
    finder: () => this.finder(),
    commit: (commands, what) => this.commit(commands, what),
    ask: (action, rows) => this.ask(action, rows),
    undo: () => this.undo(),
    redo: () => this.redo(),
    announce: (text) => this.announcer.say(text),
  };
  private readonly grids = new Map(CATALOGUE_LISTS.map((list) => [list, new GridController(this, catalogueGrid(list, this.owner))]));
  private readonly announcer = new Announcer(this);
  private readonly paper = new OnPaper(this, () => this.performUpdate());

  @property({ attribute: false })
  get catalogue(): Catalogue | null {
    return this.store === null ? null : draftCatalogue(this.store.getState().draft);
  }
  set catalogue(value: Catalogue | null) {
    if (value === null || value === this.catalogue) return;
    if (this.store === null) this.store = new CatalogueStore(value);
    else if (catalogueToJson(value) !== catalogueToJson(this.catalogue!)) this.store.replace(value);
    this.requestUpdate();
  }

  /** Takes the last step back. */
  undo(): void {
    const what = this.store?.labels().undo;
    if (this.store?.undo()) this.changed(`undo ${what}`);
  }

  /** Does again what was taken back last. */
  redo(): void {
    const what = this.store?.labels().redo;
    if (this.store?.redo()) this.changed(`redo ${what}`);
  }

  /** A fee or a labour class has another id in the rate card: operations name it by the new one. */
  follow(target: 'fees' | 'labourClasses', from: string, to: string): void {
    this.commit([{ do: 'follow', target, from, to }], `renaming of ${from}`);
  }

  /** Other book hours for some operations, as one step. */
  takeHours(hours: readonly { readonly operation: string; readonly bookHours: string }[], what: string): void {
    const taken = new Map(hours.map(({ operation, bookHours }) => [operation, bookHours]));
    const { operations } = this.store!.getState().draft;
    const entries = operations
      .filter(({ id }) => taken.has(id))
      .map((operation) => ({ ...operation, bookHours: taken.get(operation.id)! }));
    this.commit([{ do: 'put', list: 'operations', entries }], what);
  }

  /** Leads to a cell, whichever list it is in. */
  async go(list: CatalogueList, key: string, column?: string): Promise<void> {
    this.list = list;
    this.typed = '';
    await this.updateComplete;
    this.grids.get(list)!.focus(`${list}:${key}`, column);
  }

  override connectedCallback(): void {
    super.connectedCallback();
    define('baysheet-catalogue-uses', CatalogueUses);
    define('baysheet-catalogue-import', CatalogueImport);
    define('baysheet-catalogue-needs', CatalogueNeeds);
    this.requestUpdate();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.checker.stop();
  }

  /** Style sheets belong to a document: they are lost on the way into another one, and taken up again on the way back. */
  adoptedCallback(): void {
    if (this.ownerDocument === document) adoptStyles(this.renderRoot as ShadowRoot, CatalogueDesk.elementStyles);
    this.requestUpdate();
  }

  protected override willUpdate(_changed: PropertyValues<this>): void {
    if (this.store !== null && this.isConnected)
      this.checker.ask(this.store.getState().draft, this.rates, this.checked === null ? 0 : undefined);
  }

  private view(): CatalogueView | null {
    return this.store === null ? null : this.model.view(this.store, this.rates, this.locale || this.rates?.locale || 'en', this.checked);
  }

  private finder(): ((row: CatalogueRow) => boolean) | null {
    return this.model.finder(this.typed);
  }

  private commit(commands: readonly CatalogueCommand[], what: string): void {
    const before = this.store!.getState();
    this.store!.dispatch(commands, what);
    const after = this.store!.getState();
    if (after === before) return;
    // A row that was just added must not hide behind a search.
    if (commands.some((command) => command.do === 'insert')) this.typed = '';
    this.changed(what, before);
  }

  private changed(what: string, before?: CatalogueState): void {
    this.requestUpdate();
    if (before === undefined) this.announcer.say(`${what}.`);
    const { draft } = this.store!.getState();
    if (before?.draft === draft) return;
    this.dispatchEvent(new CustomEvent<CatalogueEdit>('catalogue-edit', { detail: { catalogue: draftCatalogue(draft), what } }));
  }

  private onChecked(checked: Checked): void {
    this.checked = checked;
    const detail: CatalogueChecked = {
      catalogue: draftCatalogue(checked.draft),
      usable: checked.usable,
      problems: checked.problems,
      unused: this.store?.getState().pending.size ?? 0,
    };
    this.dispatchEvent(new CustomEvent('catalogue-checked', { detail }));
  }

  /** Rows are removed at once where nothing names them; else the person is asked. */
  private ask(action: CatalogueAction, rows: readonly string[]): void {
    const { list } = this;
    const { draft } = this.store!.getState();
    const found = selectedRows(list, { row: '', column: '', columns: [], rows }, draft);
    const uses = usesOfRows(list, found, draft);
    if (action.ask === 'remove' && uses.length === 0) this.commit(action.commands, action.label);
    else this.question = { ask: action.ask!, list, rows: found, uses };
  }

  private onRemove(): void {
    const { list, rows, uses } = this.question!;
    this.commit(
      [{ do: 'remove', list, keys: rows.map(({ key }) => key) }],
      `removal with ${uses.length} ${uses.length === 1 ? 'use' : 'uses'}`,
    );
    this.announcer.say(`Removed, with ${uses.length} ${uses.length === 1 ? 'use' : 'uses'}.`);
  }

  private onAct(id: string): void {
    const { selection } = this.grids.get(this.list)!;
    if (selection === null || this.store === null) return;
    const action = catalogueActions(this.list, selection, this.store.getState().draft, this.finder() !== null).find(
      (each) => each.id === id,
    );
    if (action === undefined || action.disabled) return;
    if (action.ask !== undefined) this.ask(action, selection.rows);
    else this.commit(action.commands, action.label);
  }

  private onTake({ detail }: CustomEvent<ImportPlan>): void {
    this.commit(takeOperations(detail, this.store!.getState().draft), 'table taken in');
    this.list = 'operations';
    this.announcer.say(`${detail.added.length} operations added, ${detail.changed.length} changed.`);
  }

  private readonly onOpen = async (event: Event): Promise<void> => {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    if (file === undefined) return;
    const text = await file.text().catch(() => '');
    input.value = '';
    const read = parseCatalogue(text);
    if (read.ok) this.commit([{ do: 'set-catalogue', catalogue: read.value }], `opening ${file.name}`);
    this.dispatchEvent(new CustomEvent<readonly Problem[]>('refuse', { detail: read.ok ? [] : read.problems }));
    this.refused = read.ok ? null : { name: file.name, problems: read.problems };
  };

  private onField(field: keyof CatalogueFields, text: string): void {
    const read = readAboutField(field, text);
    if ('fault' in read) this.idFault = read.fault;
    else {
      if (field === 'id') this.idFault = '';
      this.commit([{ do: 'set', fields: read.fields }], `change of the ${field}`);
    }
  }

  protected override render(): TemplateResult {
    const view = this.view();
    if (view === null) return html`<p class="quiet">There is no catalogue yet.</p>`;
    const { draft } = view.state;
    return html`<div class="desk">
        ${this.renderTools()} ${this.refused === null ? nothing : refusedFile(this.refused.name, this.refused.problems, () => (this.refused = null))} ${catalogueAbout(draft.fields, this.idFault, (field, text) => this.onField(field, text))}
        <section part="lists" class="screen-only">
          ${tabList('Catalogue', this.tabs(view), this.list, (id) => this.show(id as CatalogueList))}
          ${repeat(
            CATALOGUE_LISTS,
            (list) => list,
            (list) => this.renderPanel(list, view),
          )}
        </section>
        ${this.paper.shown ? printedList(this.list, view) : nothing}
        ${
          this.list === 'operations' || this.list === 'steps'
            ? html`<section part="needs" aria-labelledby="needs-title">
              <div class="band"><h2 id="needs-title">What needs what</h2></div>
              <baysheet-catalogue-needs
                .index=${view.index}
                .subject=${this.subject()}
                .locale=${view.locale}
                @pick=${({ detail }: CustomEvent<NeedsSubject>) => void this.go(detail.list, detail.key)}
              ></baysheet-catalogue-needs>
            </section>`
            : nothing
        }
        ${this.checked === null ? nothing : problemsOf(this.checked, view.state, (place) => void this.go(place.list, place.key, place.column))}
        <p class="unseen" role="status">${this.announcer.text}</p>
      </div>
      <baysheet-catalogue-uses
        .question=${this.question}
        .open=${this.question !== null}
        @remove=${this.onRemove}
        @go=${({ detail }: CustomEvent<UsesQuestion['uses'][number]>) => void this.go(detail.list, detail.key)}
        @close=${() => (this.question = null)}
      ></baysheet-catalogue-uses>
      <baysheet-catalogue-import
        .catalogue=${this.catalogue}
        .rates=${this.rates}
        .locale=${view.locale}
        .open=${this.importing}
        @take=${this.onTake}
        @close=${() => (this.importing = false)}
      ></baysheet-catalogue-import>
      <div class="popups" id="popups"></div>`;
  }

  /** The row that the picture of the needs is about. */
  private subject(): NeedsSubject | null {
    const row = this.grids.get(this.list)!.selection?.row;
    const subject = row === undefined || row.endsWith('+') ? null : { list: this.list, key: row.slice(this.list.length + 1) };
    if (subject?.list !== this.lastSubject?.list || subject?.key !== this.lastSubject?.key) this.lastSubject = subject;
    return this.lastSubject;
  }

  private show(list: CatalogueList): void {
    this.list = list;
  }

  private tabs({ state: { draft } }: CatalogueView) {
    const finder = this.finder();
    return CATALOGUE_LISTS.map((id) => {
      const rows = draft[id] as readonly CatalogueRow[];
      return { id, title: `${LIST_TITLES[id].title} ${finder === null ? rows.length : rows.filter(finder).length}` };
    });
  }

  private renderTools(): TemplateResult {
    const labels = this.store!.labels();
    const title = (what: string, label: string | null, keys: string): string => (label === null ? '' : `${what} ${label} (${keys})`);
    return html`<div class="tools screen-only" part="tools" role="toolbar" aria-label="Catalogue">
      <button ?disabled=${labels.undo === null} title=${title('Undo', labels.undo, 'Ctrl+Z')} @click=${this.undo}>Undo</button>
      <button ?disabled=${labels.redo === null} title=${title('Redo', labels.redo, 'Ctrl+Y')} @click=${this.redo}>Redo</button>
      <input
        class="find"
        type="search"
        aria-label="Search the catalogue"
        placeholder="Search"
        .value=${this.typed}
        @input=${(event: Event) => (this.typed = (event.target as HTMLInputElement).value)}
      />
      <span class="grow"></span>
      <label class="button">Open … <input class="unseen" type="file" accept=".json,application/json" @change=${this.onOpen} /></label>
      <button @click=${() => (this.importing = true)}>Take in a table …</button>
      <button @click=${() => downloadOperations(this.catalogue!, this.view()!.locale, this.ownerDocument)}>Operations as CSV</button>
      <button @click=${() => downloadCatalogue(this.catalogue!, this.ownerDocument)}>Catalogue as JSON</button>
    </div>`;
  }

  private renderPanel(list: CatalogueList, view: CatalogueView): TemplateResult {
    const shown = list === this.list;
    const grid = this.grids.get(list)!;
    const { one } = LIST_TITLES[list];
    const spare = spareCell(list);
    const tools = { add: () => grid.focus(spare.row, spare.column), act: (id: string) => this.onAct(id) };
    return html`<div role="tabpanel" id="panel-${list}" aria-labelledby="tab-${list}" ?hidden=${!shown}>
      ${
        shown
          ? html`<div class="band">
            ${rowTools(one, grid.selection, tools)}
            <button ?disabled=${grid.selection === null || grid.selection.row.endsWith('+') || list === 'remedies' || list === 'overlaps' || list === 'methods'} @mousedown=${keepFocus} @click=${() => this.onAct('uses')}>
              Where it is used …
            </button>
            <span class="quiet" role="status">${this.foundText(list, view)}</span>
          </div>`
          : nothing
      }
      <div class="sheet-of" id="grid-${list}"></div>
    </div>`;
  }

  private foundText(list: CatalogueList, { state: { draft } }: CatalogueView): string {
    const finder = this.finder();
    if (finder === null) return '';
    const rows = draft[list] as readonly CatalogueRow[];
    return `${rows.filter(finder).length} of ${rows.length} found`;
  }
}

/** A press on a button must not take the selection from the grid that the button works on. */
function keepFocus(event: Event): void {
  event.preventDefault();
}
