import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import { baseStyles } from '../look/base.styles.js';
import { formatHours } from '../look/format.js';
import { printStyles } from '../look/print.styles.js';
import { scrolling } from '../look/scrolling.js';
import type { CatalogueIndex } from './catalogue-index.js';
import { type NeedsNode, type NeedsPlan, type NeedsSubject, planNeeds } from './catalogue-needs.js';
import { needsDrawing, nodeKey } from './catalogue-needs-drawing.js';

/**
 * What must come off before what: the neighbourhood of one operation or step of a catalogue, or all steps where they are
 * few. The same stands below as a table.
 *
 * @property {CatalogueIndex | null} index what is known of the draft
 * @property {NeedsSubject | null} subject the row that it is about
 * @property {string} locale how figures are written
 *
 * @fires {CustomEvent<NeedsSubject>} pick a step or an operation was chosen
 */
export class CatalogueNeeds extends LitElement {
  static override styles = [
    baseStyles,
    css`
      .scroller {
        overflow: auto;
        max-block-size: 40rem;
      }

      .drawing {
        display: block;
        margin-inline: auto;
      }

      text {
        fill: var(--_ink);
        font: 13px var(--_font);
      }

      .facts {
        fill: var(--_ink-quiet);
        font-size: 11.5px;
        font-variant-numeric: tabular-nums;
      }

      .board {
        fill: var(--_paper);
        stroke: var(--_ink);
        stroke-width: 1.25px;
      }

      .inner {
        fill: none;
        stroke: var(--_rule-strong);
      }

      .edge {
        fill: var(--_ink);
      }

      .node {
        cursor: pointer;
        outline: none;
      }

      .node:hover .board,
      .chosen .board {
        fill: var(--_accent-wash);
      }

      .chosen .board {
        stroke: var(--_accent);
        stroke-width: 2.5px;
      }

      .chosen .edge {
        fill: var(--_accent);
      }

      .node:focus-visible .board {
        stroke: var(--_accent);
        stroke-width: 3.5px;
      }

      .needs {
        fill: none;
        stroke: var(--_rule-strong);
        stroke-width: 1.25px;
      }

      .needs.chosen {
        stroke: var(--_accent);
        stroke-width: 2px;
      }

      .end {
        fill: var(--_ink);
      }

      details {
        margin-block-start: 0.5rem;
      }

      @media print {
        .scroller {
          overflow: visible;
          max-block-size: none;
        }

        .drawing {
          inline-size: auto;
          block-size: auto;
          max-inline-size: 100%;
          max-block-size: 17cm;
        }
      }
    `,
    printStyles,
  ];

  @property({ attribute: false }) index: CatalogueIndex | null = null;
  @property({ attribute: false }) subject: NeedsSubject | null = null;
  @property() locale = 'en';

  /** The one box that Tab reaches. */
  @state() private current = '';
  private plan: NeedsPlan | null = null;

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('index') && !changed.has('subject')) return;
    this.plan = this.index === null ? null : planNeeds(this.index, this.subject);
    const nodes = this.plan?.nodes ?? [];
    if (nodes.some((node) => nodeKey(node) === this.current)) return;
    const first = nodes.find(({ chosen }) => chosen) ?? nodes[0];
    this.current = first === undefined ? '' : nodeKey(first);
  }

  private readonly onKeydown = (event: KeyboardEvent): void => {
    const here = this.plan?.nodes.find((node) => nodeKey(node) === this.current);
    if (here === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === 'Enter' || event.key === ' ') this.pick(here);
    else {
      const next = this.neighbour(event.key, here);
      if (next === null) return;
      this.focusOn(next);
    }
    event.preventDefault();
  };

  /** Up and down within a column; left to what is needed, right to what needs it. */
  private neighbour(key: string, here: NeedsNode): NeedsNode | null {
    const { nodes, edges } = this.plan!;
    const column = nodes.filter((node) => node.column === here.column).sort((a, b) => a.row - b.row);
    switch (key) {
      case 'ArrowDown':
        return column[column.indexOf(here) + 1] ?? here;
      case 'ArrowUp':
        return column[column.indexOf(here) - 1] ?? here;
      case 'ArrowLeft':
        return edges.find((edge) => edge.to === here)?.from ?? here;
      case 'ArrowRight':
        return edges.find((edge) => edge.from === here)?.to ?? here;
      default:
        return null;
    }
  }

  private focusOn(node: NeedsNode): void {
    this.current = nodeKey(node);
    [...this.renderRoot.querySelectorAll<SVGElement>('[data-node]')].find(({ dataset }) => dataset['node'] === this.current)?.focus();
  }

  private readonly onClick = (event: Event): void => {
    const key = (event.target as Element).closest<SVGElement>('[data-node]')?.dataset['node'];
    const node = this.plan?.nodes.find((each) => nodeKey(each) === key);
    if (node !== undefined) this.pick(node);
  };

  private pick({ list, key }: NeedsNode): void {
    this.dispatchEvent(new CustomEvent<NeedsSubject>('pick', { detail: { list, key } }));
  }

  protected override render(): TemplateResult | typeof nothing {
    const { plan } = this;
    if (this.index === null) return nothing;
    if (plan === null) return html`<p class="quiet">Choose an operation or a step: its surroundings are drawn here.</p>`;
    if (plan.nodes.length === 0) return html`<p class="quiet">There is nothing to draw yet.</p>`;
    const { operations, steps } = plan.left;
    return html`<p class="quiet">What comes off first stands left; a line leads to what needs it. A double frame: at each position.</p>
      <div class="scroller" @keydown=${this.onKeydown} @click=${this.onClick}>${needsDrawing(plan, this.current, this.locale)}</div>
      ${
        operations + steps === 0
          ? nothing
          : html`<p class="quiet">Not drawn: ${[operations > 0 ? `${operations} more operations` : '', steps > 0 ? `${steps} more steps` : ''].filter((part) => part !== '').join(' and ')}.</p>`
      }
      <details>
        <summary>As a table</summary>
        ${scrolling('What needs what, as a table', this.renderTable(plan))}
      </details>`;
  }

  private renderTable({ nodes, edges }: NeedsPlan): TemplateResult {
    const titles = (found: readonly NeedsNode[]): string => found.map(({ title }) => title).join('; ') || 'nothing';
    return html`<table class="ruled">
      <thead>
        <tr>
          <th scope="col">Step or operation</th>
          <th scope="col" class="figure">Hours</th>
          <th scope="col">Per</th>
          <th scope="col">Needs before it</th>
          <th scope="col">Is needed by</th>
        </tr>
      </thead>
      <tbody>
        ${nodes.map(
          (node) => html`<tr>
            <th scope="row">${node.title}</th>
            <td class="figure">${formatHours(node.hours, this.locale)}</td>
            <td>${node.per}</td>
            <td>${titles(edges.filter(({ to }) => to === node).map(({ from }) => from))}</td>
            <td>${titles(edges.filter(({ from }) => from === node).map(({ to }) => to))}</td>
          </tr>`,
        )}
      </tbody>
    </table>`;
  }
}
