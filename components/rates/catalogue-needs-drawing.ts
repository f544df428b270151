import { nothing, svg, type SVGTemplateResult, type TemplateResult, html } from 'lit';
import { formatHours } from '../look/format.js';
import type { NeedsEdge, NeedsNode, NeedsPlan } from './catalogue-needs.js';

/** Measures in sixteenths of the text size: the drawing grows with the text. */
const EM = 16;
const WIDTH = 224;
const HEIGHT = 66;
const GAP_X = 56;
const GAP_Y = 12;
const MARGIN = 4;

/** Characters of a title that fit into one of its lines, and how many lines there are. */
const LINE = 28;
const LINES = 3;

/** The picture of what needs what: first off at the left, operations at the right, a line from each to what needs it. */
export function needsDrawing(plan: NeedsPlan, current: string, locale: string): TemplateResult {
  const width = plan.columns * (WIDTH + GAP_X) - GAP_X + 2 * MARGIN;
  const height = plan.rows * (HEIGHT + GAP_Y) - GAP_Y + 2 * MARGIN;
  return html`<svg class="drawing" role="group" aria-label="What needs what" width="${width / EM}em" height="${height / EM}em" viewBox="0 0 ${width} ${height}">
    ${plan.edges.map((edge) => line(edge, plan))} ${plan.nodes.map((node) => box(node, plan, current, locale))}
  </svg>`;
}

/** What a box is called when it is read out. */
export function nodeName(node: NeedsNode, locale: string): string {
  return `${node.title} ${factsOf(node, locale)}, ${node.list === 'steps' ? 'step' : 'operation'}`;
}

export function nodeKey({ list, key }: NeedsNode): string {
  return `${list}:${key}`;
}

function factsOf({ list, hours, per, uses }: NeedsNode, locale: string): string {
  const used = list === 'operations' ? '' : uses === 0 ? ', not used' : `, used ${uses} ×`;
  return `${formatHours(hours, locale)}${per === 'position' ? ' each position' : ''}${used}`;
}

function box(node: NeedsNode, plan: NeedsPlan, current: string, locale: string): SVGTemplateResult {
  const [x, y] = [left(node.column), top(node.column, node.row, plan)];
  const lines = inLines(node.title);
  const first = HEIGHT / 2 + 4 - lines.length * 7;
  return svg`<g
    class="node ${node.list} ${node.per} ${node.chosen ? 'chosen' : ''}"
    role="button"
    data-node=${nodeKey(node)}
    tabindex=${nodeKey(node) === current ? 0 : -1}
    aria-label=${nodeName(node, locale)}
    aria-current=${node.chosen ? 'true' : nothing}
    transform="translate(${x} ${y})"
  >
    <rect class="board" width=${WIDTH} height=${HEIGHT} />
    ${node.per === 'position' ? svg`<rect class="inner" x="3" y="3" width=${WIDTH - 6} height=${HEIGHT - 6} />` : nothing}
    ${node.list === 'operations' ? svg`<rect class="edge" width="5" height=${HEIGHT} />` : nothing}
    <text>
      ${lines.map((words, i) => svg`<tspan x="14" y=${first + i * 14}>${words} </tspan>`)}
      <tspan class="facts" x="14" y=${first + lines.length * 14 + 1}>${factsOf(node, locale)}</tspan>
    </text>
  </g>`;
}

function line({ from, to, lanes }: NeedsEdge, plan: NeedsPlan): SVGTemplateResult {
  const middle = (column: number, row: number): number => top(column, row, plan) + HEIGHT / 2;
  let path = `M${left(from.column) + WIDTH} ${middle(from.column, from.row)}`;
  let x = left(from.column) + WIDTH;
  let y = middle(from.column, from.row);
  const bend = (toX: number, toY: number): void => {
    const half = (x + toX) / 2;
    path += `C${half} ${y} ${half} ${toY} ${toX} ${toY}`;
    [x, y] = [toX, toY];
  };
  for (const lane of lanes) {
    bend(left(lane.column), middle(lane.column, lane.row));
    path += `H${left(lane.column) + WIDTH}`;
    x = left(lane.column) + WIDTH;
  }
  bend(left(to.column), middle(to.column, to.row));
  return svg`<path class="needs ${from.chosen || to.chosen ? 'chosen' : ''}" d=${path} /><circle class="end" cx=${x} cy=${y} r="3" />`;
}

function left(column: number): number {
  return MARGIN + column * (WIDTH + GAP_X);
}

function top(column: number, row: number, { rows, heights }: NeedsPlan): number {
  return MARGIN + ((rows - heights[column]!) / 2 + row) * (HEIGHT + GAP_Y);
}

/** A title in lines, cut with an ellipsis where it is longer than all of them. */
function inLines(title: string): string[] {
  const lines = [''];
  for (const word of title.split(' ')) {
    const line = lines.at(-1)!;
    if (line === '' || line.length + 1 + word.length <= LINE) lines[lines.length - 1] = line === '' ? word : `${line} ${word}`;
    else lines.push(word);
  }
  return [...lines.slice(0, LINES - 1), ...(lines.length < LINES ? [] : [lines.slice(LINES - 1).join(' ')])].map((line) =>
    line.length > LINE ? `${line.slice(0, LINE - 1)}…` : line,
  );
}
