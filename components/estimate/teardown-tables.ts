import { html, nothing, type TemplateResult } from 'lit';
import { formatFigure, formatHours } from '../look/format.js';
import type { TeardownPlan } from './teardown.js';

/** The facts of the teardown picture as tables: the steps, the lines, the declared overlaps. */
export function teardownTables(plan: TeardownPlan, locale: string): TemplateResult {
  const titles = new Map(plan.rows.map(({ line }) => [line.id, line.title]));
  const figure = (hours: string) => formatFigure(hours, locale);
  return html`<div class="tables" tabindex="0" role="group" aria-label="The teardown as tables">
    ${
      plan.steps.length === 0
        ? nothing
        : html`<table class="ruled">
          <caption>
            Access steps, each charged once
          </caption>
          <thead>
            <tr>
              <th scope="col">Mark</th>
              <th scope="col">Step</th>
              <th scope="col" class="figure">Hours</th>
              <th scope="col">Carried by</th>
              <th scope="col">Also needed by</th>
              <th scope="col" class="figure">Hours saved</th>
            </tr>
          </thead>
          <tbody>
            ${plan.steps.map(({ mark, title, step }) => {
              const others = step.lines.filter((line) => line !== step.carriedBy);
              return html`<tr>
                <td>${mark}</td>
                <th scope="row">${title}</th>
                <td class="figure">${figure(step.hours)}</td>
                <td>${titles.get(step.carriedBy)}</td>
                <td>${others.length === 0 ? 'no other line' : others.map((line) => titles.get(line)).join('; ')}</td>
                <td class="figure">${figure(step.savedHours)}</td>
              </tr>`;
            })}
          </tbody>
        </table>`
    }
    <table class="ruled">
      <caption>
        Operations and their hours
      </caption>
      <thead>
        <tr>
          <th scope="col">Operation</th>
          <th scope="col" class="figure">Book</th>
          <th scope="col" class="figure">Shared</th>
          <th scope="col" class="figure">Charged</th>
          <th scope="col" class="figure">Own work</th>
          <th scope="col">Steps needed</th>
          <th scope="col">Steps carried</th>
        </tr>
      </thead>
      <tbody>
        ${plan.rows.map(({ line, own, needs, carries, included }) => [
          html`<tr>
            <th scope="row">${line.title}</th>
            <td class="figure">${figure(line.bookHours)}</td>
            <td class="figure">${figure(line.sharedHours)}</td>
            <td class="figure">${figure(line.chargedHours)}</td>
            <td class="figure">${figure(own)}</td>
            <td>${needs.join(' ') || 'none'}</td>
            <td>${carries.join(' ') || 'none'}</td>
          </tr>`,
          included.map(
            ({ line: part }) =>
              html`<tr>
                <th scope="row">${part.title}</th>
                <td class="figure">${figure(part.bookHours)}</td>
                <td class="figure">${figure(part.sharedHours)}</td>
                <td class="figure">${figure(part.chargedHours)}</td>
                <td colspan="3">part of ${line.title}</td>
              </tr>`,
          ),
        ])}
      </tbody>
    </table>
    ${
      plan.joints.length === 0
        ? nothing
        : html`<table class="ruled">
          <caption>
            Declared overlaps
          </caption>
          <thead>
            <tr>
              <th scope="col">Charged in</th>
              <th scope="col">Not charged again in</th>
              <th scope="col" class="figure">Hours</th>
            </tr>
          </thead>
          <tbody>
            ${plan.joints.map(
              ({ payer, spared, hours }) =>
                html`<tr>
                  <th scope="row">${payer.title}</th>
                  <td>${spared.title}</td>
                  <td class="figure">${formatHours(hours, locale)}</td>
                </tr>`,
            )}
          </tbody>
        </table>`
    }
  </div>`;
}
