import { html, nothing, type TemplateResult } from 'lit';
import type { ReplayTask } from './replay-task.js';
import { counted } from './replay-words.js';

/** The bar of a job that runs, with what is left and a way to end it. */
export function replayProgress(task: ReplayTask, title: string, locale: string): TemplateResult | typeof nothing {
  const { progress } = task;
  if (progress === null) return nothing;
  const { done, about } = progress;
  return html`<div class="running screen-only" role="group" aria-label=${title}>
    <progress max=${Math.max(1, about)} .value=${done} aria-label=${title}></progress>
    <span class="figure">${counted(done, locale)} of ${counted(about, locale)}${timeLeft(task.secondsLeft)}</span>
    <button type="button" @click=${() => task.cancel()}>Cancel</button>
  </div>`;
}

function timeLeft(seconds: number | null): string {
  if (seconds === null) return '';
  if (seconds < 1) return ', nearly done';
  if (seconds < 90) return `, about ${Math.ceil(seconds)} s left`;
  return `, about ${Math.ceil(seconds / 60)} min left`;
}
