import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import { guard } from 'lit/directives/guard.js';
import type { PricedEstimate, PricedLine } from '../../src/pricing/priced-estimate.js';
import { baseStyles } from '../look/base.styles.js';
import { formatFigure, formatHours } from '../look/format.js';
import { printStyles } from '../look/print.styles.js';
import { planTeardown, type TeardownPlan, type TeardownRow } from './teardown.js';
import { drawing, em, HEAD, LANE } from './teardown-drawing.js';
import { pictureKey } from './teardown-key.js';
import { pictureStyles } from './teardown-picture.styles.js';
import { type TeardownStop, teardownStops } from './teardown-stops.js';
import { teardownTables } from './teardown-tables.js';

const HINT = 'Arrow keys move from block to block, Enter goes to the line.';

/**
 * The teardown picture: a cutting plan of the job. One row for each priced operation; each access step is one block, as
 * wide as it takes hours, over all rows that need it, solid where it is charged and hatched where it is already paid;
 * beside it each row's own work. The same facts stand below it as tables.
 *
 * Registered by its user; the sheet names it `baysheet-teardown`.
 *
 * @property {PricedEstimate | null} priced what is shown; null shows nothing
 * @property {string} locale how figures are written
 *
 * @fires {CustomEvent<{ line: string }>} baysheet-pick a block or a row was chosen; bubbles, composed
 *
 * @csspart picture the drawing with its row titles
 * @csspart key what the marks and the patterns mean
 * @csspart tables the facts as tables
 */
export class TeardownPicture extends LitElement {
  static override styles = [baseStyles, pictureStyles, printStyles];

  @property({ attribute: false }) priced: PricedEstimate | null = null;
  @property() locale = 'en';

  /** The one block that Tab reaches. */
  @state() private current = '';
  /** The block under the pointer or the focus. */
  @state() private shown = '';

  private plan: TeardownPlan | null = null;
  private stops: readonly TeardownStop[] = [];
  private names: ReadonlyMap<string, string> = new Map();

  override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('priced') && !changed.has('locale')) return;
    this.plan = this.priced === null ? null : planTeardown(this.priced);
    this.stops = this.plan === null ? [] : teardownStops(this.plan, this.locale);
    this.names = new Map(this.stops.map((stop) => [stop.key, stop.name]));
    if (!this.names.has(this.current)) this.current = this.stops[0]?.key ?? '';
    if (!this.names.has(this.shown)) this.shown = '';
  }

  private readonly onKeydown = (event: KeyboardEvent): void => {
    const at = this.stops.findIndex((stop) => stop.key === this.current);
    if (at < 0 || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === 'Enter' || event.key === ' ') this.pick(this.stops[at]!.line);
    else {
      const next = this.neighbour(event.key, at);
      if (next === null) return;
      this.current = next.key;
      this.elementOf(next.key)?.focus();
    }
    event.preventDefault();
  };

  /** Left and right go through the blocks row by row, up and down to the own work of the row above or below. */
  private neighbour(key: string, at: number): TeardownStop | null {
    const { stops } = this;
    const ownOf = (row: number) => stops.find((stop) => stop.row === row && stop.key.startsWith('own '));
    switch (key) {
      case 'ArrowRight':
        return stops[at + 1] ?? stops[at]!;
      case 'ArrowLeft':
        return stops[at - 1] ?? stops[at]!;
      case 'ArrowDown':
        return ownOf(stops[at]!.row + 1) ?? stops[at]!;
      case 'ArrowUp':
        return ownOf(stops[at]!.row - 1) ?? stops[at]!;
      case 'Home':
        return stops[0]!;
      case 'End':
        return stops.at(-1)!;
      default:
        return null;
    }
  }

  private elementOf(key: string): SVGElement | null {
    return [...this.renderRoot.querySelectorAll<SVGElement>('[data-stop]')].find((g) => g.dataset['stop'] === key) ?? null;
  }

  private readonly onFocus = (event: FocusEvent): void => {
    const key = keyOf(event);
    if (key === null) return;
    this.current = key;
    this.shown = key;
  };

  private readonly onBlur = (): void => {
    this.shown = '';
  };

  private readonly onOver = (event: PointerEvent): void => {
    this.shown = keyOf(event) ?? '';
  };

  private readonly onClick = (event: MouseEvent): void => {
    const label = (event.target as Element).closest<HTMLElement>('[data-line]')?.dataset['line'];
    const line = label ?? this.stops.find(({ key }) => key === keyOf(event))?.line;
    if (line !== undefined) this.pick(line);
  };

  private pick(line: string): void {
    this.dispatchEvent(new CustomEvent('baysheet-pick', { detail: { line }, bubbles: true, composed: true }));
  }

  override render(): TemplateResult | typeof nothing {
    const { plan, priced } = this;
    if (plan === null || priced === null) return nothing;
    if (plan.rows.length === 0) return html`<p class="quiet">No operation is priced yet, so there is nothing to draw.</p>`;
    const shown = this.stops.find((stop) => stop.key === this.shown);
    return html`
      <div class="frame" part="picture" @keydown=${this.onKeydown} @click=${this.onClick}>
        ${this.renderLabels(plan, new Set(shown?.lines))}
        <div
          class="scroller"
          @focusin=${this.onFocus}
          @focusout=${this.onBlur}
          @pointerover=${this.onOver}
          @pointerleave=${this.onBlur}
        >
          ${guard([plan, this.current], () => drawing({ plan, names: this.names, current: this.current, locale: this.locale }))}
        </div>
      </div>
      <p class="reading screen-only" aria-hidden="true">${shown?.name ?? HINT}</p>
      <span id="hint" class="unseen">${HINT}</span>
      ${pictureKey(plan, this.locale)}
      <details part="tables">
        <summary>As a table</summary>
        ${teardownTables(plan, this.locale)}
      </details>
    `;
  }

  /** Titles stay in view while the drawing scrolls. The blocks' names and the tables say the same to a screen reader. */
  private renderLabels(plan: TeardownPlan, touched: ReadonlySet<string>): TemplateResult {
    const label = (line: PricedLine, lanes: number, facts: unknown, classes = '') => html`<li
      class="${classes} ${touched.has(line.id) ? 'touched' : ''}"
      title=${line.title}
      .style=${`height: ${em(lanes * LANE)}`}
      data-line=${line.id}
    >
      <span class="title">${line.title}</span>
      <span class="facts">${facts}</span>
    </li>`;
    return html`<ul class="labels" aria-hidden="true" .style=${`padding-block-start: ${em(HEAD)}`}>
      ${plan.rows.map((row) => [
        label(row.line, 1, this.factsOf(row)),
        row.included.map((part) => label(part.line, part.lanes, 'part of it', 'included')),
      ])}
    </ul>`;
  }

  private factsOf({ line, carries }: TeardownRow): TemplateResult | string {
    const hours = `${formatFigure(line.chargedHours, this.locale)} of ${formatHours(line.bookHours, this.locale)}`;
    return carries.length === 0 ? hours : html`${hours}<span class="carries">, carries ${carries.join(' ')}</span>`;
  }
}

function keyOf(event: Event): string | null {
  return (event.target as Element).closest<SVGElement>('[data-stop]')?.dataset['stop'] ?? null;
}

declare global {
  interface HTMLElementEventMap {
    'baysheet-pick': CustomEvent<{ readonly line: string }>;
  }
}
