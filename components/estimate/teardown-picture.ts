import { html, LitElement, nothing, type PropertyValues, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import { guard } from 'lit/directives/guard.js';
import type { PricedEstimate, PricedLine } from '../../src/pricing/priced-estimate.js';
import { baseStyles } from '../look/base.styles.js';
import { formatFigure, formatHours } from '../look/format.js';
import { printStyles } from '../look/print.styles.js';
import {
  planTeardown,
  type TeardownJoint,
  type TeardownPlan,
  type TeardownRow,
  type TeardownStep,
} from './teardown.js';
import { pictureStyles } from './teardown-picture.styles.js';
import { stepKey, type TeardownStop, teardownStops } from './teardown-stops.js';
import { teardownTables } from './teardown-tables.js';
import { titlePlace } from './teardown-title.js';

/** Heights in em of the host's text, so that the picture grows with it. */
const LANE = 3;
const HEAD = 2.75;
/** Width of an hour in em: the least that keeps 0.2 h as wide as a finger needs, and the most that looks well. */
const LEAST_HOUR = 6;
const MOST_HOUR = 13;
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
    const stop = this.stops.find(({ key }) => key === keyOf(event));
    if (stop !== undefined) this.pick(stop.line);
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
      <div class="frame" part="picture">
        ${this.renderLabels(plan, new Set(shown?.lines))}
        <div
          class="scroller"
          @keydown=${this.onKeydown}
          @focusin=${this.onFocus}
          @focusout=${this.onBlur}
          @pointerover=${this.onOver}
          @pointerleave=${this.onBlur}
          @click=${this.onClick}
        >
          ${guard([plan, this.current], () => this.renderDrawing(plan))}
        </div>
      </div>
      <p class="reading screen-only" aria-hidden="true">${shown?.name ?? HINT}</p>
      <span id="hint" class="unseen">${HINT}</span>
      ${this.renderKey(plan)}
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
      @click=${() => this.pick(line.id)}
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

  private factsOf({ line, carries }: TeardownRow): TemplateResult {
    const hours = html`<span class="nowrap"
      >${formatFigure(line.chargedHours, this.locale)} of ${formatHours(line.bookHours, this.locale)}</span
    >`;
    return carries.length === 0 ? hours : html`${hours}<span class="carries">, carries ${carries.join(' ')}</span>`;
  }

  private renderDrawing(plan: TeardownPlan): TemplateResult {
    // Set as properties: a strict policy forbids style attributes, and lit's styleMap writes one at first.
    const measure = [
      `height: ${em(HEAD + plan.lanes * LANE + 0.25)}`,
      `min-width: ${em(plan.width * LEAST_HOUR)}`,
      `max-width: ${em(plan.width * MOST_HOUR)}`,
    ];
    // A toolbar is the pattern that has one tab stop and arrow keys between buttons. Its listeners stand outside, since
    // Chromium makes an SVG element that listens to focus events a tab stop.
    return html`<svg
      class="drawing"
      role="toolbar"
      aria-label="Teardown picture"
      aria-describedby="hint"
      .style=${measure.join('; ')}
    >
      ${hatch('hatch')} ${this.renderScale(plan)}
      ${plan.steps.map((step) => this.renderStep(step, plan))} ${plan.joints.map((joint) => this.renderJoint(joint, plan))}
      ${plan.rows.map((row) => this.renderOwn(row, plan))}
    </svg>`;
  }

  private renderScale(plan: TeardownPlan): SVGTemplateResult {
    const { steps, axis, width, lanes, rows } = plan;
    const own = Math.max(...rows.map((row) => row.ownWidth + row.deductedWidth));
    const depth = Math.max(0, ...steps.map((step) => step.x + step.width));
    // Half hours are written where they have room; they are marks of a ruler, not figures of the estimate.
    const each = width <= 7 ? 1 : 2;
    const ruler = (from: number, hours: number) =>
      Array.from({ length: Math.floor(hours * 2 + 1e-9) + 1 }, (_, i) => {
        const x = percent(from + i / 2, plan);
        return svg`<line class="tick" x1=${x} x2=${x} y1=${em(HEAD - 0.3)} y2=${y(lanes)} />
          ${i % each === 0 ? svg`<text class="middle" x=${x} y=${em(HEAD - 0.55)}><tspan class="small">${this.tick(i)}</tspan></text>` : nothing}`;
      });
    return svg`<g aria-hidden="true">
      ${steps.length === 0 ? nothing : svg`<text class="heading" x="0" y="0.9em">Teardown</text>${ruler(0, depth)}`}
      <text class="heading" x=${percent(axis, plan)} y="0.9em">Own work</text>${ruler(axis, own)}
      ${rows.map((row) => {
        const bottom = y(row.top + row.lanes);
        return svg`<line class="row-rule" x1="0" x2="100%" y1=${bottom} y2=${bottom} />`;
      })}
      <line class="axis" x1=${percent(axis, plan)} x2=${percent(axis, plan)} y1=${em(HEAD)} y2=${y(lanes)} />
    </g>`;
  }

  private tick(halves: number): string {
    return halves === 0 ? '0' : formatHours(String(halves / 2), this.locale);
  }

  private renderStep(block: TeardownStep, plan: TeardownPlan): SVGTemplateResult {
    const { step, runs, carried, mark } = block;
    const [x, width] = [percent(block.x, plan), percent(block.width, plan)];
    const centre = percent(block.x + block.width / 2, plan);
    const end = percent(block.x + block.width, plan);
    const gaps = runs.slice(1).map((run, i) => [runs[i]!.top + runs[i]!.lanes, run.top] as const);
    const title = titlePlace(block, LANE, LEAST_HOUR);
    const shared = step.lines.length > 1;
    return this.renderStop(
      stepKey(step),
      svg`
        ${gaps.map(([from, to]) => [x, end].map((at) => svg`<line class="passing" x1=${at} x2=${at} y1=${y(from)} y2=${y(to)} />`))}
        ${runs.map(
          (run) => svg`<rect class="wood" x=${x} y=${y(run.top)} width=${width} height=${em(run.lanes * LANE)} />
            ${shared ? svg`<rect fill="url(#hatch)" x=${x} y=${y(run.top)} width=${width} height=${em(run.lanes * LANE)} />` : nothing}`,
        )}
        ${runs.map((run) => svg`<rect class="edge" x=${x} y=${y(run.top)} width=${width} height=${em(run.lanes * LANE)} />`)}
        <rect class=${shared ? 'carried' : 'single'} x=${x} y=${y(carried.top)} width=${width} height=${em(carried.lanes * LANE)} />
        <text class="mark middle ${shared ? 'on-accent' : ''}" x=${centre} y=${y(carried.top + 0.5, 0.35)}>${mark}</text>
        ${
          title === null
            ? nothing
            : svg`<svg class="turned" x=${centre} y=${em(HEAD + title.middle * LANE)}>
                <g transform="rotate(-90)">
                  ${title.lines.map(
                    (words, i) => svg`
                      <text class="small halo middle" y=${em((i - (title.lines.length - 1) / 2) * 1.15 + 0.35)}>${words}</text>
                    `,
                  )}
                </g>
              </svg>`
        }
      `,
    );
  }

  private renderOwn(row: TeardownRow, plan: TeardownPlan): SVGTemplateResult {
    const x = percent(plan.axis, plan);
    const top = y(row.top, 0.5);
    const end = plan.axis + row.ownWidth + row.deductedWidth;
    return svg`
      ${this.renderStop(
        `own ${row.line.id}`,
        svg`
          <rect class="own" x=${x} y=${top} width=${percent(row.ownWidth, plan)} height=${em(LANE - 1)} />
          ${
            row.deductedWidth === 0
              ? nothing
              : svg`<rect class="spared" x=${percent(plan.axis + row.ownWidth, plan)} y=${top}
                  width=${percent(row.deductedWidth, plan)} height=${em(LANE - 1)} />`
          }
          <svg class="turned" x=${percent(end, plan)} y=${y(row.top + 0.5)}>
            <text class="figure halo" x="0.45em" y="0.35em">${formatHours(row.own, this.locale)}</text>
          </svg>
        `,
      )}
      ${row.included.map(({ line, top: at, lanes }) =>
        this.renderStop(
          `included ${line.id}`,
          svg`<svg class="turned" x=${x} y=${y(at)}>
            <rect class="spared" x="0.5em" y="0.15em" width="6em" height=${em(lanes * LANE - 0.35)} />
            <text class="middle" x="3.5em" y=${em((lanes * LANE) / 2 + 0.3)}><tspan class="small">included</tspan></text>
          </svg>`,
        ),
      )}`;
  }

  /** Two boards joined by a butterfly key: what is declared to be common is charged in the one and left out of the other. */
  private renderJoint(joint: TeardownJoint, plan: TeardownPlan): SVGTemplateResult {
    const x = percent(joint.x + 0.12, plan);
    const axis = percent(plan.axis, plan);
    const [first, last] = [joint.top + 0.5, joint.top + joint.lanes - 0.5];
    return this.renderStop(
      `joint ${joint.payer.id} ${joint.spared.id}`,
      svg`
        ${[first, last].map((at) => svg`<line class="joint" x1=${x} x2=${axis} y1=${y(at)} y2=${y(at)} />`)}
        <line class="joint" x1=${x} x2=${x} y1=${y(first)} y2=${y(last)} />
        <svg class="turned" x=${x} y=${y((first + last) / 2)}>
          <path class="butterfly" d="M-7-10h14l-4 10 4 10h-14l4-10z" />
        </svg>
        <svg class="turned" x=${x} y=${y(first)}>
          <text class="figure halo" x="0.7em" y="1.15em">${formatHours(joint.hours, this.locale)}</text>
        </svg>
      `,
    );
  }

  /** A block that can be reached and pressed. */
  private renderStop(key: string, content: SVGTemplateResult): SVGTemplateResult {
    return svg`<g
      class="stop"
      role="button"
      data-stop=${key}
      tabindex=${key === this.current ? 0 : -1}
      aria-label=${this.names.get(key) ?? nothing}
    >${content}</g>`;
  }

  private renderKey(plan: TeardownPlan): TemplateResult {
    const shared = plan.steps.some(({ step }) => step.lines.length > 1);
    const spared = plan.joints.length > 0;
    return html`<div class="key" part="key">
      ${plan.steps.length === 0
        ? nothing
        : html`<ul class="marks">
            ${plan.steps.map(
              ({ mark, title, step }) =>
                html`<li><b>${mark}</b> <span>${title}</span> <span class="figure">${formatHours(step.hours, this.locale)}</span></li>`,
            )}
          </ul>`}
      <ul class="signs">
        ${shared
          ? html`<li>${sample(svg`<rect class="carried" width="100%" height="100%" />`)} charged in this row, which carries it</li>
              <li>
                ${sample(svg`${hatch('hatch-sample')}<rect class="wood" width="100%" height="100%" />
                  <rect fill="url(#hatch-sample)" class="edge-hatched" width="100%" height="100%" />`)}
                needed here too, already paid
              </li>`
          : nothing}
        <li>${sample(svg`<rect class="own" width="100%" height="100%" />`)} own work</li>
        ${spared
          ? html`<li>${sample(svg`<rect class="spared" width="100%" height="100%" />`)} declared overlap, not charged again</li>`
          : nothing}
      </ul>
    </div>`;
  }
}

function keyOf(event: Event): string | null {
  return (event.target as Element).closest<SVGElement>('[data-stop]')?.dataset['stop'] ?? null;
}

function hatch(id: string): SVGTemplateResult {
  return svg`<defs>
    <pattern id=${id} patternUnits="userSpaceOnUse" width="6" height="6" patternTransform="rotate(45)">
      <line class="hatch" x1="0" x2="0" y1="0" y2="6" />
    </pattern>
  </defs>`;
}

function sample(content: SVGTemplateResult): TemplateResult {
  return html`<svg class="sample" aria-hidden="true">${content}</svg>`;
}

function em(length: number): string {
  return `${Math.round(length * 1000) / 1000}em`;
}

/** From the top of the drawing to a place in the lanes, and a little further. */
function y(lane: number, further = 0): string {
  return em(HEAD + lane * LANE + further);
}

function percent(hours: number, plan: TeardownPlan): string {
  return `${Math.round((hours / plan.width) * 1e5) / 1e3}%`;
}

declare global {
  interface HTMLElementEventMap {
    'baysheet-pick': CustomEvent<{ readonly line: string }>;
  }
}
