import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { formatHours } from '../look/format.js';
import type { TeardownJoint, TeardownPlan, TeardownRow, TeardownStep } from './teardown.js';
import { stepKey } from './teardown-stops.js';
import { titlePlace } from './teardown-title.js';

/** Heights in em of the host's text, so that the picture grows with it. */
export const LANE = 3;
export const HEAD = 2.75;
/** Width of an hour in em: the least that keeps 0.2 h as wide as a finger needs, and the most that looks well. */
const LEAST_HOUR = 6;
const MOST_HOUR = 13;

/** What is drawn, what each block is called, and which of them Tab reaches. */
export interface DrawingSheet {
  readonly plan: TeardownPlan;
  readonly names: ReadonlyMap<string, string>;
  readonly current: string;
  readonly locale: string;
}

/**
 * The drawing of the teardown picture. Widths are percentages and heights are em, so that it fits its place without
 * being measured, and grows with the host's text.
 */
export function drawing(sheet: DrawingSheet): TemplateResult {
  const { plan } = sheet;
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
    ${hatch('hatch')} ${scale(sheet)}
    ${plan.steps.map((step) => stepBlock(step, sheet))} ${plan.joints.map((joint) => jointBlock(joint, sheet))}
    ${plan.rows.map((row) => ownBlocks(row, sheet))}
  </svg>`;
}

function scale({ plan, locale }: DrawingSheet): SVGTemplateResult {
  const { steps, axis, width, lanes, rows } = plan;
  const own = Math.max(...rows.map((row) => row.ownWidth + row.deductedWidth));
  const depth = Math.max(0, ...steps.map((step) => step.x + step.width));
  // Half hours are written where they have room; they are marks of a ruler, not figures of the estimate.
  const each = width <= 7 ? 1 : 2;
  const ruler = (from: number, hours: number) =>
    Array.from({ length: Math.floor(hours * 2 + 1e-9) + 1 }, (_, i) => {
      const x = percent(from + i / 2, plan);
      const words = svg`<text class="middle" x=${x} y=${em(HEAD - 0.55)}>
        <tspan class="small">${tick(i, locale)}</tspan>
      </text>`;
      return svg`<line class="tick" x1=${x} x2=${x} y1=${em(HEAD - 0.3)} y2=${y(lanes)} />
        ${i % each === 0 ? words : nothing}`;
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

function tick(halves: number, locale: string): string {
  return halves === 0 ? '0' : formatHours(String(halves / 2), locale);
}

function stepBlock(block: TeardownStep, sheet: DrawingSheet): SVGTemplateResult {
  const { plan } = sheet;
  const { step, runs, carried, mark } = block;
  const [x, width] = [percent(block.x, plan), percent(block.width, plan)];
  const centre = percent(block.x + block.width / 2, plan);
  const end = percent(block.x + block.width, plan);
  const gaps = runs.slice(1).map((run, i) => [runs[i]!.top + runs[i]!.lanes, run.top] as const);
  const title = titlePlace(block, LANE, LEAST_HOUR);
  const shared = step.lines.length > 1;
  const box = (look: string, { top, lanes }: { readonly top: number; readonly lanes: number }) => svg`<rect
    class=${look}
    fill=${look === 'hatched' ? 'url(#hatch)' : nothing}
    x=${x}
    y=${y(top)}
    width=${width}
    height=${em(lanes * LANE)}
  />`;
  return stop(
    stepKey(step),
    svg`
      ${gaps.map(([from, to]) => [x, end].map((at) => svg`<line class="passing" x1=${at} x2=${at} y1=${y(from)} y2=${y(to)} />`))}
      ${runs.map((run) => box('wood', run))}
      ${shared ? runs.map((run) => box('hatched', run)) : nothing}
      ${runs.map((run) => box('edge', run))}
      ${box(shared ? 'carried' : 'single', carried)}
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
    sheet,
  );
}

function ownBlocks(row: TeardownRow, sheet: DrawingSheet): SVGTemplateResult {
  const { plan, locale } = sheet;
  const x = percent(plan.axis, plan);
  const top = y(row.top, 0.5);
  const end = plan.axis + row.ownWidth + row.deductedWidth;
  return svg`
    ${stop(
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
          <text class="figure halo" x="0.45em" y="0.35em">${formatHours(row.own, locale)}</text>
        </svg>
      `,
      sheet,
    )}
    ${row.included.map(({ line, top: at, lanes }) =>
      stop(
        `included ${line.id}`,
        svg`<svg class="turned" x=${x} y=${y(at)}>
          <rect class="spared" x="0.5em" y="0.15em" width="6em" height=${em(lanes * LANE - 0.35)} />
          <text class="middle" x="3.5em" y=${em((lanes * LANE) / 2 + 0.3)}><tspan class="small">included</tspan></text>
        </svg>`,
        sheet,
      ),
    )}`;
}

/** Two boards joined by a butterfly key: what is declared to be common is charged in the one and left out of the other. */
function jointBlock(joint: TeardownJoint, sheet: DrawingSheet): SVGTemplateResult {
  const { plan, locale } = sheet;
  const x = percent(joint.x + 0.12, plan);
  const axis = percent(plan.axis, plan);
  const [first, last] = [joint.top + 0.5, joint.top + joint.lanes - 0.5];
  return stop(
    `joint ${joint.payer.id} ${joint.spared.id}`,
    svg`
      ${[first, last].map((at) => svg`<line class="joint" x1=${x} x2=${axis} y1=${y(at)} y2=${y(at)} />`)}
      <line class="joint" x1=${x} x2=${x} y1=${y(first)} y2=${y(last)} />
      <svg class="turned" x=${x} y=${y((first + last) / 2)}>
        <path class="butterfly" d="M-7-10h14l-4 10 4 10h-14l4-10z" />
      </svg>
      <svg class="turned" x=${x} y=${y(first)}>
        <text class="figure halo" x="0.7em" y="1.15em">${formatHours(joint.hours, locale)}</text>
      </svg>
    `,
    sheet,
  );
}

/** A block that can be reached and pressed. */
function stop(key: string, content: SVGTemplateResult, { names, current }: DrawingSheet): SVGTemplateResult {
  return svg`<g
    class="stop"
    role="button"
    data-stop=${key}
    tabindex=${key === current ? 0 : -1}
    aria-label=${names.get(key) ?? nothing}
  >${content}</g>`;
}

/** The hatching of what is already paid. */
export function hatch(id: string): SVGTemplateResult {
  return svg`<defs>
    <pattern id=${id} patternUnits="userSpaceOnUse" width="6" height="6" patternTransform="rotate(45)">
      <line class="hatch" x1="0" x2="0" y1="0" y2="6" />
    </pattern>
  </defs>`;
}

export function em(length: number): string {
  return `${Math.round(length * 1000) / 1000}em`;
}

/** From the top of the drawing to a place in the lanes, and a little further. */
function y(lane: number, further = 0): string {
  return em(HEAD + lane * LANE + further);
}

function percent(hours: number, plan: TeardownPlan): string {
  return `${Math.round((hours / plan.width) * 1e5) / 1e3}%`;
}
