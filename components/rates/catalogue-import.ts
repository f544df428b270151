import { css, html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import type { Catalogue } from '../../src/documents/catalogue.js';
import type { Rates } from '../../src/documents/rates.js';
import { type ColumnMap, guessColumns, hasHeadings } from '../../src/exchange/columns.js';
import { type ImportOptions, type ImportPlan, planImport } from '../../src/exchange/import-operations.js';
import { OPERATION_FIELDS, OPERATION_TITLES, type OperationField } from '../../src/exchange/operation-fields.js';
import { readTable, type Table } from '../../src/exchange/read-table.js';
import { dialogStyles, SheetDialog } from '../look/dialog.js';
import { outcomeOf, summary } from './catalogue-import-outcome.js';

const PREVIEWED = 5;

type Settings = Pick<ImportOptions, 'existing' | 'emptyCells' | 'labourClass' | 'basis' | 'locale'> & { readonly headings: boolean };

/** Ways of writing figures that a table may come in: by the mark before its decimals. */
const FIGURES = [
  ['en-US', '1,234.5'],
  ['de-DE', '1.234,5'],
] as const;

/**
 * Takes a shop's own table of operations and book hours: which column says what, what is read, every bad row with its
 * line and the reason, and exactly what would change, before anything does.
 *
 * @property {Catalogue | null} catalogue what the table is taken into
 * @property {Rates | null} rates whose labour classes a table may name
 * @property {string} locale how figures are usually written here
 *
 * @fires {CustomEvent<ImportPlan>} take the person takes what the plan holds
 */
export class CatalogueImport extends SheetDialog {
  static override styles = [
    ...dialogStyles,
    css`
      dialog {
        width: min(62rem, calc(100vw - 2rem));
      }

      .columns {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(12rem, 1fr));
        gap: 0.5rem 0.75rem;
      }

      .scroll {
        overflow: auto;
        max-block-size: 16rem;
      }

      .choices {
        display: grid;
        gap: 0.375rem;
        border: 0;
        margin: 0;
        padding: 0;
      }

      .choices > label {
        display: flex;
        gap: 0.5rem;
        align-items: center;
        color: inherit;
      }

      input[type='radio'] {
        flex: none;
        width: 1.25rem;
        min-height: 1.25rem;
        margin: 0;
        accent-color: var(--_accent);
      }

      .changes th {
        white-space: nowrap;
      }

      .changes td,
      .changes th {
        padding-inline-end: 1rem;
        vertical-align: top;
      }

      textarea {
        font-family: ui-monospace, monospace;
      }
    `,
  ];

  @property({ attribute: false }) catalogue: Catalogue | null = null;
  @property({ attribute: false }) rates: Rates | null = null;
  @property() locale = 'en-US';

  @state() private table: Table | null = null;
  @state() private source = '';
  @state() private columns: ColumnMap = {};
  @state() private settings: Settings = this.newSettings();
  @state() private onlyWhole = false;
  @state() private unreadable = '';

  private plan: ImportPlan | null = null;

  protected override readonly heading = 'Take in a table of operations';

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('open') && this.open) {
      this.table = null;
      this.source = '';
      this.unreadable = '';
      this.onlyWhole = false;
      this.settings = this.newSettings();
    }
    this.plan =
      this.table === null || this.catalogue === null || this.table.rows.length === 0 ? null : this.planned(this.table, this.catalogue);
  }

  private newSettings(): Settings {
    const comma = new Intl.NumberFormat(this.locale || 'en').format(1.5).includes(',');
    return {
      existing: 'update',
      emptyCells: 'keep',
      labourClass: this.rates?.labourClasses[0]?.id ?? this.catalogue?.operations[0]?.labourClass ?? 'general',
      basis: 'the shop’s own table',
      locale: comma ? 'de-DE' : 'en-US',
      headings: true,
    };
  }

  private lastPlan: { readonly key: readonly unknown[]; readonly plan: ImportPlan } | null = null;

  /** Planning looks at the whole catalogue, so it is done again only when something has changed. */
  private planned(table: Table, catalogue: Catalogue): ImportPlan {
    const key = [table, catalogue, this.rates, this.columns, this.settings];
    if (this.lastPlan?.key.every((value, i) => value === key[i])) return this.lastPlan.plan;
    const { headings, ...options } = this.settings;
    const rows = headings ? table.rows.slice(1) : table.rows;
    const plan = planImport(rows, catalogue, { ...options, columns: this.columns, labourClasses: this.rates?.labourClasses ?? null });
    this.lastPlan = { key, plan };
    return plan;
  }

  private readonly onFile = async (event: Event): Promise<void> => {
    const file = (event.target as HTMLInputElement).files?.[0];
    if (file === undefined) return;
    try {
      this.read(await file.text(), file.name);
    } catch (fault) {
      this.unreadable = `${file.name} cannot be read (${fault instanceof Error ? fault.message : String(fault)}). Choose it again.`;
    }
  };

  private readonly onPasted = (event: Event): void => this.read((event.target as HTMLTextAreaElement).value, 'the text');

  private read(text: string, source: string): void {
    this.unreadable = '';
    this.table = readTable(text);
    this.source = source;
    const first = this.table.rows[0]?.cells ?? [];
    const headings = hasHeadings(first);
    this.settings = { ...this.settings, headings };
    this.columns = headings ? guessColumns(first) : {};
  }

  private readonly onColumn = (event: Event): void => {
    const { name, value } = event.target as HTMLSelectElement;
    const { [name as OperationField]: _before, ...others } = this.columns;
    this.columns = value === '' ? others : { ...others, [name]: Number(value) };
  };

  private readonly onSetting = (event: Event): void => {
    const input = event.target as HTMLInputElement | HTMLSelectElement;
    const value = input instanceof HTMLInputElement && input.type === 'checkbox' ? input.checked : input.value;
    this.settings = { ...this.settings, [input.name]: value };
    if (input.name === 'headings') this.columns = value ? guessColumns(this.table?.rows[0]?.cells ?? []) : {};
  };

  private onTake(): void {
    const { plan } = this;
    this.close();
    this.dispatchEvent(new CustomEvent('take', { detail: plan }));
  }

  protected override renderBody(): TemplateResult {
    const { table, plan } = this;
    const bad = plan?.rows.filter(({ outcome }) => outcome === 'bad') ?? [];
    const count = plan === null ? 0 : plan.added.length + plan.changed.length;
    const refused = bad.length > 0 && this.onlyWhole;
    return html`<div class="body">
      <p class="quiet">
        Hours of a guide may only be taken in where your licence for it allows that. Nothing leaves this page.
      </p>
      <div class="columns">
        <label class="field">A file: CSV, or any text with commas, semicolons or tabs <input type="file" accept=".csv,.tsv,.txt,text/*" @change=${this.onFile} /></label>
        <label class="field">or the table itself, pasted <textarea rows="2" spellcheck="false" @change=${this.onPasted}></textarea></label>
      </div>
      ${this.unreadable === '' ? nothing : html`<p class="fault" role="alert">${this.unreadable}</p>`}
      ${table === null ? nothing : this.renderTable(table)}
      ${plan === null ? nothing : outcomeOf(plan, this.onlyWhole, (only) => (this.onlyWhole = only))}
      <p role="status" class="unseen">${plan === null ? '' : summary(plan.rows)}</p>
      <div class="buttons">
        <button class="main" ?disabled=${count === 0 || refused} @click=${this.onTake}>
          ${count === 0 || refused ? 'Take nothing' : `Take ${count} ${count === 1 ? 'operation' : 'operations'}`}
        </button>
        <button @click=${this.close}>Cancel</button>
      </div>
    </div>`;
  }

  private renderTable(table: Table): TemplateResult {
    const first = table.rows[0]?.cells ?? [];
    const { settings } = this;
    const name = { ',': 'commas', ';': 'semicolons', '\t': 'tabs' }[table.separator];
    return html`<p>
        ${this.source}: ${table.rows.length} ${table.rows.length === 1 ? 'row' : 'rows'} with ${name} between
        ${table.problems.map(({ path, message, hint }) => html`<br /><strong class="fault">${path === '' ? '' : `${path}: `}${message}</strong> ${hint}`)}
      </p>
      ${
        first.length === 0
          ? nothing
          : html`<fieldset class="choices">
              <legend class="label">Which column says what</legend>
              <div class="columns">
                ${OPERATION_FIELDS.map(
                  (field) => html`<label class="field"
                    >${OPERATION_TITLES[field]}
                    <select name=${field} .value=${String(this.columns[field] ?? '')} @change=${this.onColumn}>
                      <option value="">–</option>
                      ${first.map((cell, i) => html`<option value=${i} ?selected=${this.columns[field] === i}>${columnName(i, settings.headings ? cell : '')}</option>`)}
                    </select></label
                  >`,
                )}
              </div>
            </fieldset>
            <div class="columns">
              <label class="field"
                >Figures are written
                <select name="locale" .value=${settings.locale} @change=${this.onSetting}>
                  ${FIGURES.map(([locale, example]) => html`<option value=${locale} ?selected=${settings.locale === locale}>${example}</option>`)}
                </select></label
              >
              <label class="field"
                >Operations that are there already
                <select name="existing" .value=${settings.existing} @change=${this.onSetting}>
                  <option value="update">are changed</option>
                  <option value="skip">stay as they are</option>
                </select></label
              >
              <label class="field"
                >Empty cells
                <select name="emptyCells" .value=${settings.emptyCells} @change=${this.onSetting}>
                  <option value="keep">change nothing</option>
                  <option value="clear">empty what is there</option>
                </select></label
              >
              <label class="field"
                >Labour class where none is said
                <input name="labourClass" list="classes" .value=${settings.labourClass} @change=${this.onSetting} />
                <datalist id="classes">${(this.rates?.labourClasses ?? []).map(({ id }) => html`<option value=${id}></option>`)}</datalist></label
              >
              <label class="field">Basis where none is said <input name="basis" .value=${settings.basis} @change=${this.onSetting} /></label>
            </div>
            <div class="choices">
              <label><input type="checkbox" name="headings" .checked=${settings.headings} @change=${this.onSetting} /> The first row is headings</label>
            </div>
            <div class="scroll" tabindex="0" role="group" aria-label="The first rows as they were read">
              <table class="ruled">
                <caption>
                  The first rows as they were read
                </caption>
                <tbody>
                  ${table.rows.slice(0, PREVIEWED).map(({ line, cells }) => html`<tr><th scope="row" class="quiet">line ${line}</th>${cells.map((cell) => html`<td>${cell}</td>`)}</tr>`)}
                </tbody>
              </table>
            </div>`
      }`;
  }
}

/** `A · Hours`: by letter as spreadsheets name them, and by heading. */
function columnName(column: number, heading: string): string {
  let name = '';
  for (let n = column; n >= 0; n = Math.floor(n / 26) - 1) name = String.fromCharCode(65 + (n % 26)) + name;
  return heading.trim() === '' ? `Column ${name}` : `${name} · ${heading.trim().slice(0, 40)}`;
}
