import { css } from 'lit';
import { tokens } from './tokens.js';

/**
 * What every part of the sheet looks like: words, tables, buttons and fields.
 *
 * A page's own rules for an element win over its `:host` rules, so a reset such as `* { font: …; line-height: … }` would
 * be inherited by everything inside. What a host may set is offered as custom properties; the rest is held with
 * `!important`, which turns that order round.
 */
export const baseStyles = [
  tokens,
  css`
    :host {
      display: block;
      box-sizing: border-box !important;
      color: var(--_ink) !important;
      font: var(--_text-size) / 1.4 var(--_font) !important;
      letter-spacing: normal !important;
      text-align: start !important;
      text-indent: 0 !important;
      text-transform: none !important;
      white-space: normal !important;
      word-spacing: normal !important;
    }

    :host([hidden]),
    [hidden] {
      display: none !important;
    }

    *,
    *::before,
    *::after {
      box-sizing: border-box;
    }

    :focus-visible {
      outline: var(--_focus);
      outline-offset: 1px;
    }

    h2,
    h3,
    p,
    ul,
    dl,
    dd {
      margin: 0;
      padding: 0;
    }

    ul {
      list-style: none;
    }

    summary > :is(h2, h3) {
      display: inline;
    }

    strong,
    b {
      font-weight: 650;
    }

    h2,
    h3 {
      font-size: 1em;
      font-weight: 650;
      line-height: 1.3;
    }

    .quiet {
      color: var(--_ink-quiet);
    }

    .figure {
      font-variant-numeric: tabular-nums lining-nums;
      text-align: end;
      white-space: nowrap;
    }

    .unseen {
      position: absolute;
      width: 1px;
      height: 1px;
      margin: -1px;
      overflow: hidden;
      clip-path: inset(50%);
      white-space: nowrap;
    }

    /* Tables */
    table {
      width: 100%;
      border-collapse: collapse;
      font-size: inherit;
    }

    th,
    td {
      padding: 0.1875rem 0;
      font-weight: inherit;
      text-align: start;
      vertical-align: baseline;
    }

    caption {
      padding: 0 0 0.25rem;
      font-weight: 650;
      text-align: start;
    }

    table.ruled {
      width: auto;
      min-width: min(100%, 30rem);
    }

    table.ruled :is(th, td) {
      padding: 0.25rem 0.75rem 0.25rem 0;
      border-block-end: 1px solid var(--_rule);
    }

    table.ruled thead th {
      border-block-end-color: var(--_rule-strong);
      color: var(--_ink-quiet);
      vertical-align: bottom;
    }

    table.ruled :is(th, td).figure {
      padding-inline: 0.75rem;
      text-align: end;
    }

    .scroll {
      overflow-x: auto;
    }

    @media print {
      .scroll {
        overflow: visible;
      }
    }

    /* Buttons and fields */
    button {
      min-width: 2rem;
      min-height: 2rem;
      padding: 0.25rem 0.75rem;
      border: 1px solid var(--_rule-strong);
      border-radius: var(--_radius);
      background: var(--_paper);
      color: inherit;
      font: inherit;
      cursor: pointer;
    }

    button:hover {
      background: var(--_accent-wash);
    }

    button.main {
      border-color: var(--_accent);
      background: var(--_accent);
      color: var(--_accent-ink);
    }

    button:disabled {
      border-color: var(--_rule);
      background: var(--_ground);
      color: var(--_ink-quiet);
      cursor: default;
    }

    label,
    .label {
      color: var(--_ink-quiet);
    }

    /* A link, or the label of a file, that is pressed like a button. */
    .button {
      display: inline-flex;
      align-items: center;
      min-height: 2rem;
      padding: 0.25rem 0.75rem;
      border: 1px solid var(--_rule-strong);
      border-radius: var(--_radius);
      background: var(--_paper);
      color: var(--_ink);
      text-decoration: none;
      cursor: pointer;
    }

    .button:focus-within {
      outline: var(--_focus);
      outline-offset: 1px;
    }

    input,
    select,
    textarea {
      width: 100%;
      min-height: 2rem;
      margin: 0;
      padding: 0.25rem 0.5rem;
      border: 1px solid var(--_rule-strong);
      border-radius: var(--_radius);
      background: var(--_paper);
      color: var(--_ink);
      font: inherit;
    }

    textarea {
      min-height: 4.5rem;
      line-height: 1.4;
      resize: vertical;
    }

    :is(input, select, textarea):focus-visible {
      border-color: var(--_accent);
      outline-offset: 0;
    }

    input[type='checkbox'] {
      flex: none;
      width: 1.5rem;
      min-height: 1.5rem;
      margin: 0;
      accent-color: var(--_accent);
    }

    summary {
      min-height: 1.75rem;
      padding-block: 0.25rem;
      cursor: pointer;
    }

    .fault {
      color: var(--_fault);
    }

    @media (forced-colors: active) {
      :host {
        --_ink: CanvasText;
        --_ink-quiet: CanvasText;
        --_paper: Canvas;
        --_ground: Canvas;
        --_band: Canvas;
        --_rule: CanvasText;
        --_rule-strong: CanvasText;
        --_accent: Highlight;
        --_accent-ink: HighlightText;
        --_accent-wash: Canvas;
        --_fault: CanvasText;
      }
    }
  `,
];
