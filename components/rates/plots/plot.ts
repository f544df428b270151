import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import type { DecimalString } from '../../../src/number/decimal.js';
import type { Scale } from './scale.js';

/**
 * The frame of our pictures: ground, ticks and titles of two axes, with whatever is drawn inside. The SVG is the inner
 * field itself; what stands outside it hangs over its edges into the padding of `.plot` (`plot.styles.ts`). Places are
 * percentages and sizes are em, so a picture fits its column without being measured and its words keep their size.
 *
 * A picture is for the eye: say in `label` what it shows, and put a table with the same figures beside it.
 *
 * @example
 * plot({ label: 'Sell price against cost', x, y, xTitle: 'Cost', yTitle: 'Sells for', write: money }, curve(points, x, y))
 */
export interface PlotFrame {
  /** What a screen reader says of the whole picture. */
  readonly label: string;
  readonly x: Scale;
  readonly y: Scale;
  readonly xTitle: string;
  readonly yTitle: string;
  /** How a tick of the x axis is written, and of the y axis where that is different. */
  readonly write: (figure: DecimalString) => string;
  readonly writeY?: (figure: DecimalString) => string;
  /** In em, for a picture whose height depends on what is in it; else the style sheet says. */
  readonly height?: number;
}

export function plot({ label, x, y, xTitle, yTitle, write, writeY = write, height }: PlotFrame, inside: unknown): TemplateResult {
  // As a property: a strict policy forbids style attributes.
  return html`<div class=${y.ticks.length === 0 ? 'plot flush' : 'plot'}>
    <svg class="field" role="img" aria-label=${label} .style=${height === undefined ? '' : `height: ${height}em`}>
      <g aria-hidden="true">
        ${y.ticks.map(
          (tick) => svg`<line class="grid" x1="0" x2="100%" y1=${down(y, tick)} y2=${down(y, tick)} />
            <text class="tick end" x="-0.5em" y=${down(y, tick)} dy="0.35em">${writeY(tick)}</text>`,
        )}
        ${x.ticks.map(
          (tick, i) => svg`<text class="tick ${place(i, x.ticks.length)}" x=${along(x, tick)} y="100%" dy="1.4em">${write(tick)}</text>`,
        )}
        <text class="title" x="0" y="-0.75em">${yTitle}</text>
        <text class="title end" x="100%" y="100%" dy="2.9em">${xTitle}</text>
        ${inside}
        <line class="axis" x1="0" x2="100%" y1="100%" y2="100%" />
      </g>
    </svg>
  </div>`;
}

/** A place along the x axis, as SVG wants it: `"25%"`. */
export function along(scale: Scale, figure: DecimalString): string {
  return percent(scale.at(figure));
}

/** A place on the y axis, which counts from the top in SVG. */
export function down(scale: Scale, figure: DecimalString): string {
  return percent(1 - scale.at(figure));
}

/** A line through points, in the order given; points outside the field are cut off. */
export function curve(
  points: readonly (readonly [x: DecimalString, y: DecimalString])[],
  x: Scale,
  y: Scale,
  look = 'curve',
): SVGTemplateResult | typeof nothing {
  if (points.length === 0) return nothing;
  const places = points.map(([px, py]) => `${(x.at(px) * 1000).toFixed(2)},${((1 - y.at(py)) * 1000).toFixed(2)}`);
  return svg`<svg viewBox="0 0 1000 1000" preserveAspectRatio="none" width="100%" height="100%">
    <polyline class=${look} points=${places.join(' ')} />
  </svg>`;
}

export function percent(part: number): string {
  return `${Number((part * 100).toFixed(3))}%`;
}

/** The first and last words of an axis stay inside the picture. */
function place(i: number, count: number): string {
  return i === 0 ? 'start' : i === count - 1 ? 'end' : 'middle';
}
