import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { formatHours } from '../look/format.js';
import type { TeardownPlan } from './teardown.js';
import { hatch } from './teardown-drawing.js';

/** What the marks in the teardown picture stand for, and what its patterns mean: those that occur. */
export function pictureKey(plan: TeardownPlan, locale: string): TemplateResult {
  const shared = plan.steps.some(({ step }) => step.lines.length > 1);
  const spared = plan.joints.length > 0;
  return html`<div class="key" part="key">
    ${
      plan.steps.length === 0
        ? nothing
        : html`<ul class="marks">
          ${plan.steps.map(
            ({ mark, title, step }) =>
              html`<li><b>${mark}</b> <span>${title}</span> <span class="figure">${formatHours(step.hours, locale)}</span></li>`,
          )}
        </ul>`
    }
    <ul class="signs">
      ${
        shared
          ? html`<li>${sample(svg`<rect class="carried" width="100%" height="100%" />`)} charged in this row, which carries it</li>
            <li>
              ${sample(svg`${hatch('hatch-sample')}<rect class="wood" width="100%" height="100%" />
                <rect fill="url(#hatch-sample)" class="edge-hatched" width="100%" height="100%" />`)}
              needed here too, already paid
            </li>`
          : nothing
      }
      <li>${sample(svg`<rect class="own" width="100%" height="100%" />`)} own work</li>
      ${
        spared
          ? html`<li>${sample(svg`<rect class="spared" width="100%" height="100%" />`)} declared overlap, not charged again</li>`
          : nothing
      }
    </ul>
  </div>`;
}

function sample(content: SVGTemplateResult): TemplateResult {
  return html`<svg class="sample" aria-hidden="true">${content}</svg>`;
}
